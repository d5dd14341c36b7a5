#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pricing/book/rule.h"

namespace backplate {

/// One cell of an ampacity table.
struct Conductor {
    std::string key, practice, size; ///< "1.5 mm²", "14 AWG"
    std::string edition, column;     ///< "IEC 60204-1:2016 table 6", "B1"
    Rule ampacity;
    Rule order;                            ///< cross-section, for "not below"
    std::optional<Decimal> largest_device; ///< A; nothing: the ampacity alone decides
};

/// What is left of an ampacity in warm air.
struct AmbientFactor {
    std::string practice;
    double insulation_c = 0; ///< highest temperature of the conductor
    double up_to_c = 0;      ///< air up to which the factor counts
    Rule factor;
};

/// What is left of an ampacity where conductors lie together.
struct GroupingFactor {
    std::string practice;
    std::vector<std::string> columns; ///< of the ampacity table that it is for; empty: any
    int up_to = 0; ///< loaded wires (north_america) or circuits (iec) up to which it counts
    Rule factor;
};

/// Room that a conductor needs to bend in at its terminal.
struct BendingSpace {
    std::string practice;
    double up_to_mm2 = 0; ///< largest conductor that it is for
    Rule space_mm;        ///< from the terminal to what stands before it
};

/// What lies beside a conductor; by practice loaded wires (north_america) or circuits (iec).
struct WiresTogether {
    OptionalRule feeds;    ///< whose incoming conductors share an entry or duct; absent: one
    OptionalRule neutral;  ///< of three phases among the loaded wires of a feed; absent: none
    OptionalRule supplies; ///< whose 24 V wires share a duct, of those that carry; absent: one
    OptionalRule beside_feed_iec, beside_feed_north_america;
    OptionalRule beside_supply_iec, beside_supply_north_america;
    OptionalRule inside_air_iec, inside_air_north_america; ///< °C around wires inside; absent: any
};

/// Which column of the ampacity table counts; nothing where the rules name none.
struct ConductorColumns {
    std::string iec, north_america, north_america_above;
    std::string north_america_control; ///< for 24 V wiring
    OptionalRule north_america_limit;  ///< A of the device up to which the first of them counts
    OptionalRule insulation_iec, insulation_north_america; ///< °C, of the incoming conductor
};

/// How parts of the power circuit are judged that state no short-circuit rating.
struct ShortCircuitRow {
    bool judged = true;     ///< false: no part of the power circuit, or exempt
    OptionalRule stands_in; ///< kA; nothing: only an own rating counts
};

} // namespace backplate
