#pragma once

#include "pricing/panel/box_facts.h"

namespace backplate {

/// Surge arresters by the first row of surge_protection whose condition holds: of every feed the
/// cheapest that states the mains of the box and protects all its live conductors, with a breaker
/// before it where the row says so; none where the request names one itself. They stand among the
/// mains. Source: IEC 60364-4-44, 5-53 from memory; which places ask for it: common practice.
void add_surge(BoxFacts& facts, const PriceBook& book);

/// Does the arrester protect all live conductors of this mains. One that states no voltage or no
/// poles is never taken.
bool protects_mains(const Part& arrester, const Site& site);

} // namespace backplate
