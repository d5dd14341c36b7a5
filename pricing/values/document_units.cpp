#include "pricing/values/document_units.h"

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

std::string without_zero_decimal(double value) {
    std::string text = number_text(value, 1);
    if (text.ends_with(".0")) text.resize(text.size() - 2);
    return text;
}

std::string length_number(double millimetres, bool inch) {
    const double value = length_in(millimetres, inch);
    return inch ? number_text(value, 2) : without_zero_decimal(value);
}

} // namespace

std::string length_unit(bool inch) { return inch ? "in" : "mm"; }

std::string temperature_unit(bool inch) { return inch ? "°F" : "°C"; }

double length_in(double millimetres, bool inch) { return inch ? millimetres / 25.4 : millimetres; }

double temperature_in(double celsius, bool inch) { return inch ? celsius * 9 / 5 + 32 : celsius; }

std::string length_text(double millimetres, bool inch) {
    return length_number(millimetres, inch) + " " + length_unit(inch);
}

std::string size_text(double width_mm, double height_mm, double depth_mm, bool inch) {
    return length_number(width_mm, inch) + " × " + length_number(height_mm, inch) + " × " +
           length_text(depth_mm, inch);
}

std::string plate_text(double width_mm, double height_mm, bool inch) {
    return length_number(width_mm, inch) + " × " + length_text(height_mm, inch);
}

std::string length_range_text(double from_mm, double up_to_mm, bool inch) {
    if (from_mm == up_to_mm) return length_text(from_mm, inch);
    return length_number(from_mm, inch) + " to " + length_text(up_to_mm, inch);
}

std::string temperature_text(double celsius, bool inch) {
    return number_text(temperature_in(celsius, inch), 1) + " " + temperature_unit(inch);
}

std::string stated_temperature_text(double celsius, bool inch) {
    return without_zero_decimal(temperature_in(celsius, inch)) + " " + temperature_unit(inch);
}

std::string temperature_range_text(double low_c, double high_c, bool inch) {
    return without_zero_decimal(temperature_in(low_c, inch)) + " to " +
           stated_temperature_text(high_c, inch);
}

std::string rise_text(double kelvin, bool inch) {
    return inch ? number_text(kelvin * 9 / 5, 1) + " °F" : number_text(kelvin, 1) + " K";
}

std::string distance_text(double metres, bool inch) {
    return inch ? number_text(metres / 0.3048, 0) + " ft" : without_zero_decimal(metres) + " m";
}

} // namespace backplate
