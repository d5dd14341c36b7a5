#include "reports/number_format.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <optional>
#include <string_view>

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

struct Gauge {
    std::string_view name;
    int number; ///< 1/0 is 0, 2/0 is -1 …
};

constexpr std::array<Gauge, 19> gauges{{{"24", 24},
                                        {"22", 22},
                                        {"20", 20},
                                        {"18", 18},
                                        {"16", 16},
                                        {"14", 14},
                                        {"12", 12},
                                        {"10", 10},
                                        {"8", 8},
                                        {"6", 6},
                                        {"4", 4},
                                        {"3", 3},
                                        {"2", 2},
                                        {"1", 1},
                                        {"1/0", 0},
                                        {"2/0", -1},
                                        {"3/0", -2},
                                        {"4/0", -3},
                                        {"0", 0}}};

double area_mm2(int gauge) {
    const double diameter = 0.127 * std::pow(92.0, (36.0 - gauge) / 39.0);
    return std::numbers::pi / 4 * diameter * diameter;
}

std::optional<std::string> before(const std::string& text, std::string_view ending) {
    if (!text.ends_with(ending)) return std::nullopt;
    return text.substr(0, text.size() - ending.size());
}

std::string least_gauge(double mm2) {
    for (const Gauge& gauge : gauges)
        if (area_mm2(gauge.number) >= mm2) return std::string(gauge.name);
    return {};
}

} // namespace

std::string conductor_text(const std::string& size, bool inch) {
    if (const auto gauge = before(size, " AWG"); gauge && !inch) {
        for (const Gauge& row : gauges)
            if (row.name == *gauge)
                return size + " (" + number_text(area_mm2(row.number), 2) + " mm²)";
    }
    if (const auto area = before(size, " mm²"); area && inch) {
        const auto value = parse_decimal(*area);
        const std::string gauge = value ? least_gauge(value->number()) : std::string();
        if (!gauge.empty()) return size + " (at least " + gauge + " AWG)";
    }
    return size;
}

namespace {

constexpr double cubic_metres_per_cubic_foot = 0.3048 * 0.3048 * 0.3048; // 1 ft = 0.3048 m exactly

std::string one_in_inch_units(double value, std::string_view unit) {
    if (unit == "mm") return length_text(value, true);
    if (unit == "°C") return stated_temperature_text(value, true);
    if (unit == "K") return rise_text(value, true);
    if (unit == "m") return distance_text(value, true);
    if (unit == "m³/h")
        return number_text(value / cubic_metres_per_cubic_foot / 60, 0) + " ft³/min";
    return {};
}

} // namespace

std::string in_inch_units(const std::string& value, const std::string& unit, bool inch) {
    if (!inch) return {};
    std::string_view rest = value;
    if (rest.starts_with('[') && rest.ends_with(']')) rest = rest.substr(1, rest.size() - 2);
    std::string text;
    while (!rest.empty()) {
        const auto end = std::min(rest.find(','), rest.size());
        std::string_view item = rest.substr(0, end);
        rest.remove_prefix(std::min(end + 1, rest.size()));
        while (item.starts_with(' ')) item.remove_prefix(1);
        double number = 0;
        const auto read = std::from_chars(item.data(), item.data() + item.size(), number);
        const bool whole = !item.empty() && read.ptr == item.data() + item.size();
        const std::string one = whole ? one_in_inch_units(number, unit) : std::string();
        if (one.empty()) return {};
        text += (text.empty() ? "" : ", ") + one;
    }
    return text;
}

} // namespace backplate
