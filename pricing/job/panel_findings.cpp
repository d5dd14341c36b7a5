#include <algorithm>

#include "pricing/job/findings.h"

namespace backplate {
namespace {

std::string pieces(std::int64_t count) { return steps_text(count, 0); }

void load_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = box_path(box.index);
    const PanelDesign& design = *choice.design;
    double field = 0;
    for (std::size_t i = 0; i < choice.search->facts.demand.lines.size(); ++i) {
        const PointLine& points = *choice.search->facts.demand.lines[i].points;
        if (points.fed_from_box) field += points.amps * choice.search->facts.planned[i];
    }
    for (const EquipmentFact& fact : choice.search->facts.equipment)
        if (fact.where == "outside") field += fact.amps_24v * fact.asked->quantity;
    if (field > 0)
        sink.add("FIELD_POWER", at + "/points",
                 {{"box", box.name}, {"amps", number_text(field, 2)}});
    for (const PointLine& points : box.points)
        if (points.on_together < Percent::whole(100))
            sink.add("SIMULTANEITY",
                     at + "/points/" + pieces(static_cast<std::int64_t>(points.index)) +
                         "/on_together_percent",
                     {{"box", box.name},
                      {"signal", points.signal},
                      {"on_together", points.on_together.text()},
                      {"load", number_text(design.together.value, 2)},
                      {"load_all_on", number_text(design.all_on.value, 2)}});
    const SupplyResult& supply = result.supplies.front();
    const double factor = supply.derating.temperature.value_or(1);
    const double available = supply.rated.value * factor * supply.derating.altitude;
    if (supply.load_all_on.value > available)
        sink.add("ALL_ON_OVERLOAD", "#" + at + "/supplies/0",
                 {{"box", box.name},
                  {"load_all_on", number_text(supply.load_all_on.value, 2)},
                  {"available", number_text(available, 2)}});
    if (supply.air && factor < sink.limit("DERATING_TEMP"))
        sink.add("DERATING_TEMP", "#" + at + "/supplies/0/derating/temperature",
                 {{"box", box.name},
                  {"air", number_text(supply.air->value, 1) + " °C"},
                  {"factor", number_text(factor, 3)},
                  {"rated", number_text(supply.rated.value, 1)}});
}

void heat_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = "#" + box_path(box.index) + "/heat";
    const HeatResult& heat = result.heat;
    if (!heat.top || !heat.second_method_top) return; // no verdict without the box
    if (heat.stage != "sealed" || choice.heat_decides)
        sink.add("HEAT", at,
                 {{"inside_w", number_text(heat.inside.value, 1)},
                  {"ambient", number_text(box.site.ambient_high_c, 1) + " °C"},
                  {"box", box.name},
                  {"decision", heat.stage == "sealed"            ? "larger enclosure"
                               : heat.stage == "circulation_fan" ? "circulation fan"
                               : heat.stage == "filter_fan"      ? "filter fan"
                                                                 : "cooling unit"}});
    const double limit = heat.limit.value;
    const bool first_above = heat.top->value > limit;
    const bool second_above = heat.second_method_top->value > limit;
    if (first_above != second_above)
        sink.add("HEAT_METHODS_DIFFER", at,
                 {{"box", box.name},
                  {"top_c", number_text(heat.top->value, 1) + " °C"},
                  {"second_top_c", number_text(heat.second_method_top->value, 1) + " °C"},
                  {"limit_c", number_text(limit, 1) + " °C"}});
}

std::string terminal_reason(const PanelChoice& choice) {
    std::string text;
    const auto add = [&](const char* reason) {
        if (text.find(reason) == std::string::npos)
            text += (text.empty() ? "" : " and ") + std::string(reason);
    };
    for (const DemandLine& line : choice.search->facts.demand.lines) {
        if (line.signal->shielded) add("shields");
        if (line.points->wiring == "3-wire") add("three-wire devices");
    }
    return text.empty() ? "their wiring" : text;
}

void room_findings(const PanelChoice& choice, const BoxResult& result,
                   const std::vector<PointResult>& points, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = box_path(box.index);
    if (box.choices.room.fraction() * 100 > sink.limit("SPACE_SPARE"))
        sink.add("SPACE_SPARE", at + "/choices/room_percent",
                 {{"box", box.name},
                  {"room_left", number_text(result.enclosures.front().room_left_percent, 1)},
                  {"room_percent", box.choices.room.text()}});
    int channels = 0;
    for (const PointResult& point : points) channels += point.fitted;
    if (choice.design->signal_terminals != 2 * channels)
        sink.add("TERMINALS", "#" + at + "/terminals",
                 {{"box", box.name},
                  {"terminals", pieces(choice.design->signal_terminals)},
                  {"channels", pieces(channels)},
                  {"reason", terminal_reason(choice)}});
    if (choice.smaller)
        sink.add("SMALLER_ENCLOSURE", "#" + at + "/enclosures",
                 {{"part", choice.smaller->part->key},
                  {"box", box.name},
                  {"saving", choice.smaller->saving.text(2)}});
    if (choice.beyond_size)
        sink.add("SPACE_LIMIT", at + "/site/max_mm",
                 {{"box", box.name},
                  {"limit", "size stated"},
                  {"part", choice.beyond_size->part->key},
                  {"saving", choice.beyond_size->saving.text(2)}});
}

void waste_findings(const std::vector<PointResult>& points, const BidRequest& request,
                    std::size_t first_point, FindingSink& sink) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        const PointResult& point = points[i];
        if (point.used == 0) continue;
        const double asked = request.spare.percent.of(point.signal).fraction() * 100;
        const double achieved = (point.fitted - point.used) * 100.0 / point.used;
        if (achieved <= asked + sink.limit("ROUNDING_WASTE") || point.fitted <= point.required + 2)
            continue;
        sink.add("ROUNDING_WASTE", "#/points/" + pieces(static_cast<std::int64_t>(first_point + i)),
                 {{"signal", point.signal},
                  {"box", point.box},
                  {"achieved", number_text(achieved, 1)},
                  {"demanded", number_text(asked)}});
    }
}

} // namespace

void panel_findings(const PanelChoice& choice, const BoxResult& result,
                    const std::vector<PointResult>& points, const BidRequest& request,
                    std::size_t first_point, FindingSink& sink) {
    load_findings(choice, result, sink);
    heat_findings(choice, result, sink);
    room_findings(choice, result, points, sink);
    waste_findings(points, request, first_point, sink);
    choice_findings(choice, sink);
    const Box& box = *choice.search->facts.box;
    const std::string at = box_path(box.index);
    const std::string rating =
        result.short_circuit ? number_text(result.short_circuit->stated_ka, 1) : "an unknown";
    if (!box.site.fault_current_ka)
        sink.add("SCCR_UNKNOWN", at + "/site/fault_current_ka",
                 {{"box", box.name}, {"stated_ka", rating}});
    if (result.short_circuit)
        sink.add("SCCR_OFFERED", "#" + at + "/short_circuit",
                 {{"box", box.name}, {"stated_ka", rating}});
    if (!box.choices.enclosure_part.empty() &&
        !part_meets(*choice.design->enclosure, box.site.protection))
        sink.add("HAND_CHOICE_AGAINST_RULE", at + "/choices",
                 {{"part", box.choices.enclosure_part},
                  {"rule", "the protection asked"},
                  {"expected", box.site.protection}});
    for (const std::string& part : box.choices.exclude)
        if (!choice.search->book->find(part))
            sink.add("HAND_CHOICE_AGAINST_RULE", at + "/choices/exclude",
                     {{"box", box.name},
                      {"part", part},
                      {"rule", "the price book"},
                      {"expected", "a part that it holds (the exclusion does nothing)"}});
    if (!choice.proven || !choice.design->mix_proven)
        sink.add("BOUND_GAP", "#/systems/0",
                 {{"system", box.name}, {"gap", "an amount the search did not bound"}});
    for (const EquipmentFact& fact : choice.search->facts.equipment)
        if (!fact.heat_known)
            sink.add("HEAT_LOSS_UNKNOWN",
                     at + "/equipment/" + pieces(static_cast<std::int64_t>(fact.asked->index)),
                     {{"part", fact.part->key}, {"row", "none"}});
}

} // namespace backplate
