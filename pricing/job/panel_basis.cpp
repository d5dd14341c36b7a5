#include "pricing/job/panel_basis.h"

#include <algorithm>

#include "pricing/job/basis_context.h"
#include "pricing/panel/heat_surface.h"

namespace backplate {
namespace {

void append(std::string& sum, const std::string& term) {
    if (term.empty()) return;
    sum += (sum.empty() ? "" : " + ") + term;
}

void record_heat(const Context& context) {
    Formula formula;
    const std::string volts = formula.use(context.rule(context.rules().supply.volts));
    std::string loss;
    for (const SupplyEntry& entry : supply_entries(context))
        append(loss, loss_term(context, entry, formula));
    std::string sum;
    double rest = 0;
    for (const Consumer& consumer : context.consumers) {
        if (consumer.inside_w == 0) continue;
        if (!formula.has_room())
            rest += consumer.inside_w;
        else if (consumer.heat_is_current)
            append(sum, volts + " × " + formula.product(consumer.factors));
        else
            append(sum, formula.product(consumer.heat_factors));
    }
    if (rest > 0) append(sum, number_text(rest));
    append(sum, loss);
    for (const auto& [part, pieces] : warm_parts(context.design))
        append(sum, steps_text(pieces, 0) + " × " +
                        formula.use(from_part(part->key + "/own_w",
                                              number_text(part->own_w.value_or(0)), "W")));
    if (sum.empty()) sum = "0";
    add(context, "/heat/inside_w", context.design.inside.value, "W", sum, "heat/inside",
        formula.take(), "climate-and-supply 6: what leaves through the terminals is no heat");
}

void record_set_point(const Context& context, const BasisInput& ambient) {
    const HeatResult& heat = context.result.heat;
    const Celsius highest = highest_top(context.design, context.search);
    add(context, "/heat/mid_c", heat.mid->value, "°C", "min(a, " + number_text(highest.value) + ")",
        "heat/set_point", {ambient},
        "climate-and-supply 4.1: the stage holds the outside temperature, or the highest that "
        "devices and supply allow");
    add(context, "/heat/top_c", heat.top->value, "°C", "a", "heat/set_point",
        {context.figure("/heat/mid_c", heat.mid->value, "°C")}, "it stirs the air");
}

void record_temperature(const Context& context) {
    const HeatResult& heat = context.result.heat;
    if (!heat.mid || !heat.top) return; // no verdict without the box
    const EnclosureResult& box = context.result.enclosures.front();
    const Site& site = context.search.facts.box->site;
    const BasisInput ambient =
        from_request(context.box + "/site/ambient_c/1", number_text(site.ambient_high_c), "°C");
    const Rule& top = context.rules().heat.top_factor;
    if (holds_set_point(context.design.stage)) {
        record_set_point(context, ambient);
        return;
    }
    std::vector<BasisInput> inputs{
        context.figure("/heat/inside_w", heat.inside.value, "W"),
        context.figure("/enclosures/0/height_mm", box.height_mm.value_or(0), "mm"),
        context.figure("/enclosures/0/width_mm", box.width_mm.value_or(0), "mm"),
        context.figure("/enclosures/0/depth_mm", box.depth_mm.value_or(0), "mm"),
        ambient,
        from_request(context.box + "/site/altitude_m", number_text(site.altitude_m), "m")};
    std::string formula = "two_film(a, b, c, d, e, f)";
    if (const OptionalRule& fullest = context.rules().suites.heat_of_fullest_percent;
        box.quantity > 1 && fullest) {
        formula = "two_film(a × g ÷ 100, b, c, d, e, f)";
        inputs.push_back(context.rule(*fullest));
    }
    if (site.place == "outdoor_sun") {
        const char next = static_cast<char>('a' + inputs.size());
        formula.back() = ',';
        formula += std::string(" ") + next + ", " + static_cast<char>(next + 1) + ")";
        inputs.push_back(context.rule(absorptance_of(*context.design.enclosure, context.rules())));
        inputs.push_back(context.rule(context.rules().solar.irradiance));
    }
    add(context, "/heat/mid_c", heat.mid->value, "°C", formula, "heat/two_film", std::move(inputs),
        "climate-and-supply 1.4, 2: balance of two films and a wall over the uncovered faces");
    add(context, "/heat/top_c", heat.top->value, "°C", "b + c × (a − b)", top.id,
        {context.figure("/heat/mid_c", heat.mid->value, "°C"), ambient, context.rule(top)},
        "climate-and-supply 1.5");
}

/// Flow that the heat is carried with, and what one kelvin of it carries.
void record_flow(const Context& context) {
    const CoolingStage& stage = context.design.stage;
    if (!context.result.heat.flow_m3h) return;
    Formula formula;
    std::string text = steps_text(stage.quantity, 0) + " × " +
                       formula.use(from_part(stage.part->key + "/flow_m3h",
                                             number_text(*stage.part->flow_m3h), "m³/h"));
    const OptionalRule& fouling = context.rules().heat.fouling_factor;
    if (fouling) text += " × " + formula.use(context.rule(*fouling));
    const double carried = carried_by_flow(stage, *context.search.facts.box, context.rules());
    add(context, "/heat/flow_m3h", *context.result.heat.flow_m3h, "m³/h", text,
        fouling ? fouling->id : "heat/flow", formula.take(),
        "climate-and-supply 3, 4.1: installed flow with clogged filters; carries " +
            number_text(carried, 2) + " W/K in the air of the place");
}

/// "; passed over: sealed: 41.2 of 66.0 W could leave; …": cheaper stages, each with its reason.
std::string passed_text(const HeatResult& heat) {
    std::string text;
    for (const PassedStage& each : heat.passed_over) {
        std::string stage = each.stage;
        std::replace(stage.begin(), stage.end(), '_', ' ');
        if (!each.part.empty()) stage += " " + each.part;
        text += (text.empty() ? "; passed over: " : "; ") + stage + ": " + each.reason;
    }
    return text;
}

/// The pieces of the chosen stage, and why none that costs less was taken.
void record_stage(const Context& context) {
    const CoolingStage& stage = context.design.stage;
    const HeatResult& heat = context.result.heat;
    if (!stage.part || heat.parts.empty()) return;
    const int enclosures = context.design.enclosure.pieces;
    add(context, "/heat/parts/0/quantity", stage.quantity, "pieces",
        steps_text(stage.quantity / enclosures, 0) + " × a", "heat/stage",
        {context.figure("/enclosures/0/quantity", enclosures, "pieces")},
        "climate-and-supply 4.1: " + stage.part->key +
            " of the cheapest whole panel in every enclosure" + passed_text(heat));
}

/// Effective surface of the mounting, face by face: "(b × c × d + …) ÷ 1000000".
std::string surface_term(const Context& context, Formula& formula) {
    const FaceRules& faces = context.rules().faces;
    const EnclosureResult& box = context.result.enclosures.front();
    const CoveredFaces covered = covered_faces(context.search.facts.box->site.mounting);
    const auto side_mm = [&](const char* name, const std::optional<double>& value) {
        return formula.use(
            context.figure("/enclosures/0/" + std::string(name), value.value_or(0), "mm"));
    };
    const std::string width = side_mm("width_mm", box.width_mm);
    const std::string height = side_mm("height_mm", box.height_mm);
    const std::string depth = side_mm("depth_mm", box.depth_mm);
    const auto factor = [&](const Rule& row) { return formula.use(context.rule(row)); };
    const auto upright = [&](bool hidden) {
        return factor(hidden ? faces.side_covered : faces.side);
    };
    std::string plan = factor(covered.top ? faces.top_covered : faces.top);
    if (covered.floor_counts) plan = "(" + plan + " + " + factor(faces.floor) + ")";
    std::string sides = upright(covered.left) + " + " + upright(covered.right);
    std::string each = width + " × " + depth + " × " + plan + " + " + width + " × " + height +
                       " × (" + upright(false) + " + " + upright(covered.rear) + ")";
    if (box.quantity > 1) {
        each = formula.use(context.figure("/enclosures/0/quantity", box.quantity, "pieces")) +
               " × (" + each + ")";
        sides += " + " + steps_text(2 * (box.quantity - 1), 0) + " × " + upright(true);
    }
    return "(" + each + " + " + depth + " × " + height + " × (" + sides + ")) ÷ 1000000";
}

void record_surface_rule(const Context& context) {
    const HeatResult& heat = context.result.heat;
    if (!heat.second_method_top) return;
    const Box& box = *context.search.facts.box;
    const RuleBook& rules = context.rules();
    const PanelDesign& design = context.design;
    const double value = heat.second_method_top->value;
    if (holds_set_point(design.stage)) {
        add(context, "/heat/second_method_top_c", value, "°C", "a", "heat/set_point",
            {context.figure("/heat/mid_c", heat.mid->value, "°C")}, "it is held");
        return;
    }
    const Surface surface = surface_of(design.enclosure, box, design.stage, rules);
    Formula formula;
    const std::string outside = formula.use(from_request(
        context.box + "/site/ambient_c/1", number_text(box.site.ambient_high_c), "°C"));
    const std::string top = formula.use(context.rule(rules.heat.top_factor));
    const std::string loss = formula.use(context.rule(u_low_of(*design.enclosure, rules))) + " × " +
                             surface_term(context, formula);
    std::string heat_in = formula.use(context.figure("/heat/inside_w", heat.inside.value, "W"));
    if (const OptionalRule& fullest = rules.suites.heat_of_fullest_percent;
        design.enclosure.pieces > 1 && fullest)
        heat_in += " × " + formula.use(context.rule(*fullest)) + " ÷ 100";
    if (surface.sun_w_m2 > 0)
        heat_in += " + " + loss + " × " +
                   formula.use(context.rule(absorptance_of(*design.enclosure, rules))) + " × " +
                   formula.use(context.rule(rules.solar.irradiance)) + " × " +
                   number_text(sun_rise(surface, 1).value / surface.sun_w_m2) + " ÷ " +
                   formula.use(context.rule(rules.solar.outer_film));
    const double flow = carried_by_flow(design.stage, box, rules);
    std::string text = outside + " + " + top + " × (" + heat_in + ") ÷ (" + loss +
                       (flow > 0 ? " + " + number_text(flow) : "") + ")";
    if (heat.stage == "circulation_fan")
        text += " × " + formula.use(context.rule(rules.heat.circulation_factor));
    add(context, "/heat/second_method_top_c", value, "°C", text, "heat/surface_rule",
        formula.take(), "climate-and-supply 1.1, 1.2, 2: effective surface of the mounting");
}

void record_fitted(const PanelChoice& choice, const std::vector<PointResult>& points,
                   std::size_t first_point, Recorder& recorder) {
    const Demand& demand = choice.search->facts.demand;
    const auto& uses = choice.design->arrangement->member.uses;
    for (std::size_t i = 0; i < demand.signals.size(); ++i) {
        const PointResult& point = points[first_point + i];
        if (point.used == 0) continue;
        const std::string at =
            "/points/" + steps_text(static_cast<std::int64_t>(first_point + i), 0);
        const auto number = [](int value) { return steps_text(value, 0); };
        recorder.add({at + "/spare_achieved_percent",
                      number_text((point.fitted - point.used) * 100.0 / point.used),
                      "%",
                      "(a − b) × 100 ÷ b",
                      "spare/of_used",
                      {from_figure(at + "/fitted", number(point.fitted), "channels"),
                       from_figure(at + "/used", number(point.used), "points")},
                      "always of used"});
        std::string sum;
        for (std::size_t mix = 0; mix < demand.mix.size(); ++mix) {
            if (demand.lines[demand.mix[mix].lines.front()].points->signal != point.signal)
                continue;
            for (const ModuleUse& use : uses)
                if (use.carried[mix] + use.extra[mix] > 0)
                    append(sum, number(use.carried[mix] + use.extra[mix]));
        }
        if (sum.empty()) continue;
        recorder.add({at + "/fitted",
                      number(point.fitted),
                      "channels",
                      sum,
                      "mix/cheapest",
                      {},
                      "channels of the modules at their places"});
    }
}

} // namespace

void record_panel(const PanelChoice& choice, const BoxResult& result,
                  const std::vector<PointResult>& points, std::size_t first_point,
                  Recorder& recorder) {
    const SearchFacts& search = *choice.search;
    Context context{*choice.design,
                    search,
                    result,
                    "/boxes/" + steps_text(static_cast<std::int64_t>(search.facts.box->index), 0),
                    recorder,
                    search.fixed};
    for (const Consumer& consumer :
         chosen_consumers(search.facts, *choice.design->arrangement, {}, *search.rules))
        context.consumers.push_back(consumer);
    for (const Consumer& consumer : chosen_consumers(
             search.facts, Arrangement{}, other_consumers(*choice.design), *search.rules))
        context.consumers.push_back(consumer);
    for (const GroupSupply& group : choice.design->further)
        for (const Consumer& consumer : consumers_before(group, search))
            context.consumers.push_back(consumer);
    record_fitted(choice, points, first_point, recorder);
    record_loads(context);
    record_heat(context);
    record_temperature(context);
    record_surface_rule(context);
    record_flow(context);
    record_stage(context);
    record_supplies(context);
    record_incoming(context);
    record_protection(context);
}

} // namespace backplate
