#pragma once

#include <string>

namespace backplate {

/// The unit a document prints lengths in: "in" or "mm".
std::string length_unit(bool inch);
/// The unit a document prints temperatures in: "°F" or "°C".
std::string temperature_unit(bool inch);

/// Millimetres in the document's unit (1 in = 25.4 mm exactly, ISO 31-1).
double length_in(double millimetres, bool inch);
/// Degrees Celsius in the document's unit.
double temperature_in(double celsius, bool inch);

/// "1000 mm" or "39.37 in": millimetres whole or with one decimal, inches with two.
std::string length_text(double millimetres, bool inch);
/// "800 × 1000 × 300 mm", width × height × depth.
std::string size_text(double width_mm, double height_mm, double depth_mm, bool inch);
/// "51.3 °C" or "124.3 °F", one decimal.
std::string temperature_text(double celsius, bool inch);

/// A conductor as its table names it ("1.5 mm²", "14 AWG", "2/0 AWG"); where the document uses the
/// other system, followed by its equivalent: the cross-section of the gauge, or the smallest gauge
/// of at least that cross-section. Areas by the definition of the gauge, ASTM B258:
/// diameter = 0.127 mm × 92^((36 − n) / 39). A text of neither form stays as it is.
std::string conductor_text(const std::string& size, bool inch);

} // namespace backplate
