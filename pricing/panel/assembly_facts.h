#pragma once

#include "pricing/panel/box_facts.h"

namespace backplate {

/// What the assemblies of the box bring beside their points: rows with how often they count, and
/// their parts as equipment. Of a part the cheapest of the price book with that function is taken;
/// where there is none a line without a price with the size and heat of the row.
void add_assemblies(BoxFacts& facts, const PriceBook& book, const RuleBook& rules);

/// How often the rows of one sort count, with their values: sheets, minutes, wires, terminals.
std::int64_t assembly_sum(const BoxFacts& facts, AssemblyRow::Brings brings,
                          AssemblyRow::Occurrence occurrence);

/// Do the points of this assembly have their software minutes there?
bool brings_minutes(const BoxFacts& facts, const PointLine& points);

} // namespace backplate
