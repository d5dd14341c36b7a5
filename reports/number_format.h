#pragma once

#include <string>

#include "pricing/values/document_units.h"

namespace backplate {

/// A conductor as its table names it ("1.5 mm²", "14 AWG", "2/0 AWG"); where the document uses the
/// other system, followed by its equivalent: the cross-section of the gauge, or the smallest gauge
/// of at least that cross-section. Areas by the definition of the gauge, ASTM B258:
/// diameter = 0.127 mm × 92^((36 − n) / 39). A text of neither form stays as it is.
std::string conductor_text(const std::string& size, bool inch);

/// A figure with its unit as a document prints it beside the engine's: "45.28 in" for "1150" mm,
/// "104 °F" for "40" °C, "14.4 °F" for "8" K, "1476 ft" for "450" m, "59 ft³/min" for "100" m³/h.
/// Lists as "[5, 40]" item by item. Empty where the unit is the same in both systems, the document
/// is metric or the text is no number.
std::string in_inch_units(const std::string& value, const std::string& unit, bool inch);

} // namespace backplate
