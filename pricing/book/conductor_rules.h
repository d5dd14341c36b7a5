#pragma once

#include <optional>
#include <string>

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
