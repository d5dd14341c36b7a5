#pragma once

#include "pricing/panel/box_facts.h"

namespace backplate {

/// The line from a box to its controller; null where the box holds the controller, has none, or the
/// medium has no row.
const LinkRow* link_of(const Box& box, const RuleBook& rules);

/// The cheapest part that ends a line of this kind; null where the row asks for none or the price
/// book holds none.
const Part* link_part(const PriceBook& book, const BoxFacts& facts, const LinkRow& row);

/// Lines that end in one box of the kind: its own to the controller, or those of all boxes that its
/// controller leads; with the parts that end them.
void add_links(BoxFacts& facts, const PriceBook& book, const RuleBook& rules);

} // namespace backplate
