#pragma once

#include <string>

namespace backplate {

// Quantities as the documents of a job print them: metric, or with inches, °F and feet.

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
/// "750 × 1150 mm", width × height.
std::string plate_text(double width_mm, double height_mm, bool inch);
/// "4.5 to 10 mm"; equal ends are one length.
std::string length_range_text(double from_mm, double up_to_mm, bool inch);
/// "51.3 °C" or "124.3 °F", one decimal.
std::string temperature_text(double celsius, bool inch);
/// A temperature as a person states it: "40 °C", "18.5 °F"; a decimal only where there is one.
std::string stated_temperature_text(double celsius, bool inch);
/// "5 to 40 °C", "41 to 104 °F": two temperatures as a person states them.
std::string temperature_range_text(double low_c, double high_c, bool inch);
/// A temperature difference: "8.0 K" or "14.4 °F" (1.8 °F per K exactly).
std::string rise_text(double kelvin, bool inch);
/// A height above the sea or a length of cable: "450 m", or in whole feet "1476 ft" (1 ft =
/// 0.3048 m exactly).
std::string distance_text(double metres, bool inch);

} // namespace backplate
