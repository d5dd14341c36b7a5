#pragma once

#include "pricing/panel/box_facts.h"

namespace backplate {

/// The thinnest conductor of the practice's ampacity column that carries `amperes` and may stand
/// behind a device of that rating; not below the smallest of the rules where `incoming`. Beside it,
/// 24 V wiring of north_america may take the column of control wiring. Null above the table.
/// Source: electrical-facts 2 (NEC 310.16, 110.14(C), 240.4(D); IEC 60204-1 table 6).
const Conductor* conductor_for(const RuleBook& rules, bool north_america, double amperes,
                               bool incoming);

/// Main switches of one feed; 0 where the rules ask for none.
int switches_per_feed(const RuleBook& rules);

/// The cheapest wire of the size or thicker, for power; `plain` where it is thick enough or where
/// the price book states no cross-sections. Null where it states them and has none.
const Part* wire_of_size(const PriceBook& book, const BoxFacts& facts, const Conductor& size,
                         const Part* plain);

/// The cheapest terminal of the function that takes the size; `other` where the price book has none
/// of the function or states no sizes. Null where it states them and has none.
const Part* terminal_of_size(const PriceBook& book, const BoxFacts& facts,
                             const std::string& function, const Conductor& size, const Part* other);

} // namespace backplate
