#pragma once

#include "pricing/panel/box_facts.h"

namespace backplate {

/// What a conductor lies in.
struct WirePlace {
    std::optional<double> air_c; ///< °C; nothing: as the tables take it
    int together = 1;            ///< with its own: loaded wires (north_america) or circuits (iec)
};

/// What takes from an ampacity there, each factor by itself.
struct WireFactors {
    std::optional<AmbientFactor> air;
    std::optional<GroupingFactor> grouping;
    double product() const; ///< a factor of the air above 1 is not taken
};

/// Of the incoming conductor: the warmest air of the place, and its own and other feeds that share
/// the entry; of the 24 V wires of so many supplies that carry the load together: the air inside.
/// Rows of the table wires_together.
WirePlace place_of_feed(const BoxFacts& facts);
WirePlace place_of_supplies(const BoxFacts& facts, int carrying);

/// The thinnest conductor of the practice's ampacity column that carries `amperes` there and may
/// stand behind a device of that rating; not below the smallest of the rules where `incoming`.
/// Beside it, 24 V wiring of north_america may take the column of control wiring. Null above the
/// table. Source: electrical-facts 2 (NEC 310.16, 110.14(C), 240.4(D); IEC 60204-1 table 6).
const Conductor* conductor_for(const RuleBook& rules, bool north_america, double amperes,
                               bool incoming, const WirePlace& place = {});

/// What the conductor carries there, A: in iec the column times the factors; in north_america the
/// column of the terminals, at most that of the insulation times the factors. Source:
/// electrical-facts 2 (IEC 60204-1 tables D.1, D.2; NEC 310.15(B)(1), 310.15(C)(1), 110.14(C)).
double ampacity_in(const RuleBook& rules, bool north_america, const Conductor& row,
                   const WirePlace& place);

/// The factors of the practice for a conductor of the row; none where the rules have no rows, 0
/// beyond the table.
WireFactors wire_factors(const RuleBook& rules, bool north_america, const Conductor& row,
                         const WirePlace& place);

/// The factor of the practice's insulation in this air, 0 in air hotter than the table; nothing
/// where the rules have none.
std::optional<AmbientFactor> ambient_factor(const RuleBook& rules, bool north_america,
                                            double air_c);

/// The cell that the factor is for: in iec the row itself, in north_america the one of the same
/// size in the column of the insulation, else the row itself.
const Conductor& in_insulation(const RuleBook& rules, bool north_america, const Conductor& row);

/// Room before a terminal in which the conductor bends; null where the practice has none and above
/// its last row. Source: electrical-facts 4 (NEC 312.6(A), one wire per terminal).
const BendingSpace* bending_row(const RuleBook& rules, bool north_america,
                                const Conductor& conductor);

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
