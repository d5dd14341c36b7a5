#pragma once

#include "pricing/panel/box_facts.h"

namespace backplate {

/// The thinnest conductor of the practice's ampacity column that carries `amperes` and may stand
/// behind a device of that rating; not below the smallest of the rules where `incoming`. Beside it,
/// 24 V wiring of north_america may take the column of control wiring. Null above the table.
/// Source: electrical-facts 2 (NEC 310.16, 110.14(C), 240.4(D); IEC 60204-1 table 6).
const Conductor* conductor_for(const RuleBook& rules, bool north_america, double amperes,
                               bool incoming);

/// The incoming conductor as above where warm air takes from the ampacity.
const Conductor* conductor_in_air(const RuleBook& rules, bool north_america, double amperes,
                                  double air_c);

/// What the conductor carries in the air, A: in iec the column times the factor; in north_america
/// the column of the terminals, at most that of the insulation times the factor. A factor above 1
/// is not taken. Source: electrical-facts 2 (IEC 60204-1 table D.1, NEC 310.15(B)(1), 110.14(C)).
double ampacity_in_air(const RuleBook& rules, bool north_america, const Conductor& row,
                       double air_c);

/// The factor of the practice's insulation in this air, 0 in air hotter than the table; nothing
/// where the rules have none.
std::optional<AmbientFactor> ambient_factor(const RuleBook& rules, bool north_america,
                                            double air_c);

/// The cell that the factor is for: in iec the row itself, in north_america the one of the same
/// size in the column of the insulation, else the row itself.
const Conductor& in_insulation(const RuleBook& rules, bool north_america, const Conductor& row);

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
