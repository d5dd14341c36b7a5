#include "pricing/panel/cold.h"

#include <algorithm>
#include <cmath>

#include "pricing/panel/cooling.h"
#include "pricing/panel/heat_surface.h"

namespace backplate {
namespace {

// Magnus relation over water, constants of the WMO guide (climate-and-supply 4.4, S36).
constexpr double magnus_slope = 17.62;
constexpr double magnus_c = 243.12;

/// ln of the vapour pressure against that of 0 °C.
double vapour(double celsius) { return magnus_slope * celsius / (magnus_c + celsius); }
double celsius_of(double vapour) { return magnus_c * vapour / (magnus_slope - vapour); }

bool is_control(const Part& part) {
    return part.function == "hygrostat" || part.function == "thermostat";
}

const Part* cheaper(const Part* a, const Part* b) { return !a || *b->net() < *a->net() ? b : a; }

} // namespace

double dew_point(double celsius, double humidity_percent) {
    return celsius_of(std::log(humidity_percent / 100) + vapour(celsius));
}

Kelvin rise_to_humidity(double celsius, double humidity_percent, double inside_percent) {
    const double warm = celsius_of(std::log(humidity_percent / inside_percent) + vapour(celsius));
    return {std::max(0.0, warm - celsius)};
}

bool may_condense(const Site& site, const RuleBook& rules) {
    const FindingRow* row = rules.find_finding("CONDENSATION");
    const bool outdoor = site.place.starts_with("outdoor");
    const bool humid = row && row->limit && site.humidity_percent > row->limit->number();
    const bool cold = row && row->second_limit && site.ambient_low_c < row->second_limit->number();
    return humid || (outdoor && cold);
}

HeatingParts heating_parts(const PriceBook& book, const BoxFacts& facts) {
    HeatingParts parts;
    for (const Part* part : book.of_kind("heater")) {
        if (!may_choose(*part, *facts.box, *facts.request)) continue;
        if (!fits_mains(*part, facts.box->site)) continue;
        if (part->function == "hygrostat") parts.hygrostat = cheaper(parts.hygrostat, part);
        if (part->function == "thermostat") parts.thermostat = cheaper(parts.thermostat, part);
        if (!is_control(*part) && part->own_w.value_or(0) > 0) parts.heaters.push_back(part);
    }
    return parts;
}

ColdNeed cold_need(const Site& site, std::optional<double> parts_min_c, const RuleBook& rules) {
    ColdNeed need;
    if (parts_min_c) need.rise = {std::max(0.0, *parts_min_c - site.ambient_low_c)};
    if (!may_condense(site, rules)) return need;
    const Kelvin dry = rise_to_humidity(site.ambient_low_c, site.humidity_percent,
                                        rules.heating.humidity_percent.number());
    need.dew = dry > need.rise;
    need.rise = std::max(need.rise, dry);
    return need;
}

Watts heater_need(const Suite& enclosure, const Box& box, Kelvin rise, const RuleBook& rules) {
    const Material* material = rules.find_material(enclosure->material);
    const double u = material ? material->u_high.number() : rules.heat.surface_u.number();
    const bool outdoor = box.site.place.starts_with("outdoor");
    const double factor = outdoor ? rules.heating.outdoor_factor.number() : 1;
    const Surface surface = surface_of(enclosure, box, {}, rules);
    return {factor * u * cooling_surface(surface, rules).value * rise.value};
}

std::optional<Heating> choose_heating(const HeatingParts& parts, Watts need, bool dew) {
    Heating heating;
    const Part* wanted = dew ? parts.hygrostat : parts.thermostat;
    const Part* other = dew ? parts.thermostat : parts.hygrostat;
    heating.control = wanted ? wanted : other;
    std::int64_t least = 0;
    for (const Part* part : parts.heaters) {
        const auto pieces = std::max<std::int64_t>(1, need_in(need.value / *part->own_w, 1));
        const std::int64_t price = part->net()->steps() * pieces;
        if (heating.heater && price >= least) continue;
        heating.heater = part;
        heating.pieces = static_cast<int>(pieces);
        least = price;
    }
    if (!heating.heater || !heating.control) return std::nullopt;
    return heating;
}

} // namespace backplate
