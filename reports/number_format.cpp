#include "reports/number_format.h"

#include <array>
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

} // namespace backplate
