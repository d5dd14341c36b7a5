#include "pricing/panel/cooling.h"

#include <algorithm>

#include "pricing/panel/heat_surface.h"
#include "pricing/panel/site_limits.h"

namespace backplate {
namespace {

constexpr double stated_c = 35; ///< inside and outside, at which units state their cooling
constexpr double hot_c = 50;    ///< outside, of the second figure (EN 14511: L35 L50)

bool stage_allowed(const std::string& stage, const std::string& asked) {
    if (asked == "sealed") return false;
    if (stage == "water_exchanger") return asked == stage;
    if (asked == "any") return true;
    if (asked == "no_outside_air") return stage != "filter_fan";
    if (asked == "filter_fan") return stage == "circulation_fan" || stage == "filter_fan";
    return stage == asked;
}

/// Useful cooling of the stage with the inside air held at `mid`. A cooling unit states it at 35 °C
/// inside and outside: hotter air outside and colder air inside take from it, by its own figure at
/// 50 °C outside, else by the rule row. What a water exchanger gives hangs on the client's water.
double useful_cooling(const CoolingStage& stage, double outside, double mid,
                      const RuleBook& rules) {
    const Part& part = *stage.part;
    const double stated = part.cooling_w.value_or(0);
    double each_kelvin = 0;
    if (part.cooling_hot_w)
        each_kelvin = std::max(0.0, stated - *part.cooling_hot_w) / (hot_c - stated_c);
    else if (rules.heat.unit_percent_per_k)
        each_kelvin = stated * rules.heat.unit_percent_per_k->number() / 100;
    const double away = std::max(0.0, outside - stated_c) + std::max(0.0, stated_c - mid);
    const double lost = stage.name == "cooling_unit" ? each_kelvin * away : 0;
    return std::max(0.0, stated - lost) * stage.quantity;
}

/// Useful cooling of a unit, less what comes in through walls kept below the outside air and
/// warmed by the sun.
double unit_balance(const Suite& enclosure, const Box& box, const CoolingStage& stage, double mid,
                    const RuleBook& rules) {
    const Surface surface = surface_of(enclosure, box, stage, rules);
    const Material* material = rules.find_material(enclosure->material);
    const double u = material ? material->u_high.number() : rules.heat.surface_u.number();
    const double warmer =
        box.site.ambient_high_c - mid + sun_rise(surface, rules.solar.outer_film.number()).value;
    const double inwards = u * cooling_surface(surface, rules).value * warmer;
    return useful_cooling(stage, box.site.ambient_high_c, mid, rules) - std::max(0.0, inwards);
}

} // namespace

std::vector<CoolingStage> cooling_stages(const PriceBook& book, const BoxFacts& facts) {
    std::vector<CoolingStage> stages;
    const std::string& asked = facts.box->choices.cooling;
    const bool demanded =
        asked == "air_exchanger" || asked == "water_exchanger" || asked == "cooling_unit";
    if (!demanded) stages.push_back({});
    for (const Part* part : book.of_kind("cooling"))
        if (may_choose(*part, *facts.box, *facts.request) && why_not_cooling(*part, facts).empty())
            stages.push_back({part->stage, part, 1});
    return stages;
}

std::string why_not_cooling(const Part& part, const BoxFacts& facts) {
    const Site& site = facts.box->site;
    const std::string& asked = facts.box->choices.cooling;
    if (!stage_allowed(part.stage, asked)) return "the request asks for cooling: " + asked;
    if (!fits_mains(part, site)) return "it does not run on the mains";
    if (part.max_c && *part.max_c < site.ambient_high_c)
        return "the air of the place is hotter than it bears";
    if (!place_allows_stage(site, part.stage, *facts.rules))
        return "dust or corrosion of the place forbid it";
    const bool in_the_wall = part.stage != "circulation_fan";
    if (in_the_wall && !part_meets(part, site.protection, *facts.rules))
        return "its mark does not meet " + site.protection;
    return {};
}

bool holds_set_point(const CoolingStage& stage) {
    return stage.name == "cooling_unit" || stage.name == "water_exchanger";
}

bool fits_wall(const Part& cooling, const Part& enclosure) {
    if (cooling.stage == "circulation_fan" || !enclosure.height_mm) return true;
    const double widest = std::max(enclosure.width_mm.value_or(0), enclosure.depth_mm.value_or(0));
    return cooling.height_mm.value_or(0) <= *enclosure.height_mm &&
           cooling.width_mm.value_or(0) <= widest;
}

Surface surface_of(const Suite& enclosure, const Box& box, const CoolingStage& stage,
                   const RuleBook& rules) {
    Surface surface;
    surface.width_m = enclosure->width_mm.value_or(0) / 1000;
    surface.height_m = enclosure->height_mm.value_or(0) / 1000;
    surface.depth_m = enclosure->depth_mm.value_or(0) / 1000;
    surface.enclosures = enclosure.pieces;
    surface.mounting = box.site.mounting;
    surface.altitude_m = box.site.altitude_m;
    if (box.site.place == "outdoor_sun")
        surface.sun_w_m2 =
            absorptance_of(*enclosure, rules).number() * rules.solar.irradiance.number();
    surface.stirred = stage.name == "circulation_fan";
    if (rules.heat.stirred_film) surface.stirred_film = rules.heat.stirred_film->number();
    if (const Material* material = rules.find_material(enclosure->material)) {
        surface.emissivity_out = material->emissivity_out.number();
        surface.emissivity_in = material->emissivity_in.number();
        surface.wall_m = material->wall_mm.number() / 1000;
        surface.wall_conductivity = material->wall_conductivity.number();
    }
    return surface;
}

Watts heat_shed_at(const Suite& enclosure, const Box& box, const CoolingStage& stage, Celsius top,
                   const RuleBook& rules, Work& work) {
    if (stage.part && !fits_wall(*stage.part, *enclosure)) return {0};
    const double outside = box.site.ambient_high_c;
    const double uneven = heat_of_fullest(enclosure, rules);
    const double mid = outside + (top.value - outside) / rules.heat.top_factor.number();
    if (holds_set_point(stage)) {
        const double held = unit_set_point(box, top).value;
        return {std::max(0.0, unit_balance(enclosure, box, stage, held, rules) / uneven)};
    }
    if (mid <= outside) return {0};
    const Surface surface = surface_of(enclosure, box, stage, rules);
    const Watts walls = heat_shed(surface, {outside}, {mid}, work);
    const double flow = carried_by_flow(stage, box, rules) * (mid - outside);
    return {std::max(0.0, (walls.value + flow) / uneven)};
}

double carried_by_flow(const CoolingStage& stage, const Box& box, const RuleBook& rules) {
    if (stage.name == "air_exchanger")
        return stage.part->cooling_w_k.value_or(0) * stage.quantity *
               pressure_at(box.site.altitude_m) / pressure_at(0);
    if (stage.name != "filter_fan") return 0;
    return useful_flow(stage, rules) / fan_constant(box.site.altitude_m, {box.site.ambient_high_c});
}

double useful_flow(const CoolingStage& stage, const RuleBook& rules) {
    const double fouling = rules.heat.fouling_factor ? rules.heat.fouling_factor->number() : 1;
    return stage.part->flow_m3h.value_or(0) * stage.quantity * fouling;
}

Celsius unit_set_point(const Box& box, Celsius highest_top) {
    return {std::min(box.site.ambient_high_c, highest_top.value)};
}

Celsius settled_mid(const Suite& enclosure, const Box& box, const CoolingStage& stage, Watts heat,
                    Celsius highest_top, const RuleBook& rules, Work& work) {
    const double outside = box.site.ambient_high_c;
    if (holds_set_point(stage)) return unit_set_point(box, highest_top);
    heat = {heat.value * heat_of_fullest(enclosure, rules)};
    const Surface surface = surface_of(enclosure, box, stage, rules);
    const double per_kelvin = carried_by_flow(stage, box, rules);
    if (per_kelvin <= 0) return inside_temperature(surface, {outside}, heat, work);
    double low = outside, high = 150;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        const double shed =
            heat_shed(surface, {outside}, {middle}, work).value + per_kelvin * (middle - outside);
        (shed < heat.value ? low : high) = middle;
    }
    return {(low + high) / 2};
}

SquareMetres cooling_surface(const Surface& surface, const RuleBook& rules) {
    const FaceRules& faces = rules.faces;
    return effective_surface(surface,
                             {faces.top.number(), faces.top_covered.number(), faces.side.number(),
                              faces.side_covered.number(), faces.floor.number()});
}

const Rule& u_low_of(const Part& enclosure, const RuleBook& rules) {
    const Material* material = rules.find_material(enclosure.material);
    return material ? material->u_low : rules.heat.surface_u;
}

const Rule& absorptance_of(const Part& enclosure, const RuleBook& rules) {
    const auto found = rules.solar.finishes.find(enclosure.finish);
    return found == rules.solar.finishes.end() ? rules.solar.unknown_finish : found->second;
}

Kelvin rise_by_sun(const Suite& enclosure, const Box& box, const CoolingStage& stage, Watts heat,
                   const RuleBook& rules, Work& work) {
    Surface lit = surface_of(enclosure, box, stage, rules);
    if (holds_set_point(stage)) return sun_rise(lit, rules.solar.outer_film.number());
    Box shaded = box;
    shaded.site.place = "outdoor_shade";
    return {settled_mid(enclosure, box, stage, heat, {0}, rules, work).value -
            settled_mid(enclosure, shaded, stage, heat, {0}, rules, work).value};
}

Celsius second_method_top(const Suite& enclosure, const Box& box, const CoolingStage& stage,
                          Watts heat, const RuleBook& rules) {
    const double outside = box.site.ambient_high_c;
    const Surface surface = surface_of(enclosure, box, stage, rules);
    const double area = cooling_surface(surface, rules).value;
    const double u = u_low_of(*enclosure, rules).number();
    const double by_sun = u * area * sun_rise(surface, rules.solar.outer_film.number()).value;
    const double uneven = heat_of_fullest(enclosure, rules);
    double rise = (uneven * heat.value + by_sun) / (u * area + carried_by_flow(stage, box, rules));
    if (stage.name == "circulation_fan") rise *= rules.heat.circulation_factor.number();
    return {outside + rules.heat.top_factor.number() * rise};
}

std::int64_t ShedTable::milliwatts(const Suite& enclosure, std::size_t stage_index,
                                   const CoolingStage& stage, Celsius top) {
    const std::int64_t step = limit_in(top.value, 0.01);
    const auto key = std::make_tuple(enclosure.part, enclosure.pieces, stage_index, step);
    const auto found = known_.find(key);
    if (found != known_.end()) return found->second;
    const Celsius rounded{static_cast<double>(step) * 0.01};
    const Watts shed = heat_shed_at(enclosure, box_, stage, rounded, rules_, work_);
    return known_[key] = limit_in(shed.value, 0.001);
}

} // namespace backplate
