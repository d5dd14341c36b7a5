#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "pricing/cost/roll_up.h"
#include "pricing/job/findings.h"
#include "pricing/panel/line_wiring.h"
#include "pricing/panel/site_limits.h"
#include "pricing/values/document_units.h"
#include "pricing/values/listed.h"

namespace backplate {
namespace {

std::string pieces(std::int64_t count) { return steps_text(count, 0); }

std::string plain(std::string word) {
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

/// Air at the top of the box if it stood sealed with the same heat; nothing where it is sealed, or
/// beyond what the balance covers.
std::optional<Celsius> top_without_cooling(const PanelChoice& choice) {
    const PanelDesign& design = *choice.design;
    if (design.stage.name == "sealed") return std::nullopt;
    const RuleBook& rules = *choice.search->rules;
    const Box& box = *choice.search->facts.box;
    Work work;
    try {
        const Celsius mid = settled_mid(design.enclosure, box, CoolingStage{}, design.inside,
                                        highest_top(design, *choice.search), rules, work);
        const double outside = box.site.ambient_high_c;
        return Celsius{outside + rules.heat.top_factor.number() * (mid.value - outside)};
    } catch (const std::domain_error&) {
        return std::nullopt;
    }
}

void derating_finding(const PanelChoice& choice, const SupplyResult& supply, std::size_t entry,
                      FindingSink& sink) {
    const double limit = sink.limit("DERATING_TEMP");
    if (!supply.air || !supply.derating.temperature) return; // no verdict without the box
    double factor = *supply.derating.temperature;
    std::string air = temperature_text(supply.air->value, sink.inch());
    if (factor >= limit) {
        const auto top = top_without_cooling(choice);
        if (!top) return;
        factor = temperature_factor(units_of(*choice.design, entry), *top, sink.rules().supply);
        if (factor >= limit) return;
        air =
            temperature_text(top->value, sink.inch()) + ", as it were without the cooling chosen,";
    }
    const Box& box = *choice.search->facts.box;
    sink.add("DERATING_TEMP",
             "#" + box_path(box.index) + "/supplies/" + pieces(static_cast<std::int64_t>(entry)) +
                 "/derating/temperature",
             {{"box", box.name},
              {"air", air},
              {"factor", number_text(factor, 3)},
              {"rated", number_text(supply.rated.value, 1)}});
}

void rating_findings(const PanelChoice& choice, const SupplyResult& supply, std::size_t entry,
                     FindingSink& sink) {
    if (supply.alternating) return; // a transformer is not derated
    const Box& box = *choice.search->facts.box;
    const Derating& derating = supply.derating;
    const double available = supply.rated.value * derating.temperature.value_or(1) *
                             derating.altitude * derating.input * derating.mounting;
    if (supply.load_all_on.value > available)
        sink.add("ALL_ON_OVERLOAD",
                 "#" + box_path(box.index) + "/supplies/" +
                     pieces(static_cast<std::int64_t>(entry)),
                 {{"box", box.name},
                  {"load_all_on", number_text(supply.load_all_on.value, 2)},
                  {"available", number_text(available, 2)}});
    derating_finding(choice, supply, entry, sink);
}

void load_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = box_path(box.index);
    const PanelDesign& design = *choice.design;
    const auto feeds = [&](const PointLine& points) { // on together, everything on
        for (const GroupSupply& group : design.further)
            if (group.group + 1 == group_of_line(choice.search->facts, points.index))
                return std::pair{group.together, group.all_on};
        return std::pair{design.together, design.all_on};
    };
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
        if (points.on_together.fraction() * 100 < sink.limit("SIMULTANEITY"))
            sink.add("SIMULTANEITY",
                     at + "/points/" + pieces(static_cast<std::int64_t>(points.index)) +
                         "/on_together_percent",
                     {{"box", box.name},
                      {"signal", points.signal},
                      {"on_together", points.on_together.text()},
                      {"load", number_text(feeds(points).first.value, 2)},
                      {"load_all_on", number_text(feeds(points).second.value, 2)}},
                     points.on_together.text() + " % of " + points.signal);
    for (std::size_t entry = 0; entry < result.supplies.size(); ++entry)
        rating_findings(choice, result.supplies[entry], entry, sink);
}

/// "filter fan (sealed: 41.2 of 66.0 W could leave)".
std::string heat_decision(const HeatResult& heat) {
    if (heat.stage == "sealed") return "larger enclosure";
    std::string passed;
    for (const PassedStage& each : heat.passed_over)
        passed += (passed.empty() ? "" : "; ") + plain(each.stage) + ": " + each.reason;
    return plain(heat.stage) + (passed.empty() ? "" : " (" + passed + ")");
}

void heat_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = "#" + box_path(box.index) + "/heat";
    const HeatResult& heat = result.heat;
    if (!heat.top || !heat.second_method_top) return; // no verdict without the box
    if (heat.stage != "sealed" || choice.heat_decides)
        sink.add("HEAT", at,
                 {{"inside_w", number_text(heat.inside.value, 1)},
                  {"ambient", stated_temperature_text(box.site.ambient_high_c, sink.inch())},
                  {"box", box.name},
                  {"decision", heat_decision(heat)}});
    const double limit = heat.limit.value;
    const bool first_above = heat.top->value > limit;
    const bool second_above = heat.second_method_top->value > limit;
    const double apart = std::abs(heat.top->value - heat.second_method_top->value);
    if (first_above != second_above || apart > sink.limit("HEAT_METHODS_DIFFER"))
        sink.add("HEAT_METHODS_DIFFER", at,
                 {{"box", box.name},
                  {"top_c", temperature_text(heat.top->value, sink.inch())},
                  {"second_top_c", temperature_text(heat.second_method_top->value, sink.inch())},
                  {"limit_c", temperature_text(limit, sink.inch())}});
}

/// Why terminals are not two per channel fitted, from what the lines count.
std::string terminal_reason(const PanelChoice& choice) {
    std::vector<std::string> reasons;
    const auto add = [&](const std::string& reason) {
        if (std::find(reasons.begin(), reasons.end(), reason) == reasons.end())
            reasons.push_back(reason);
    };
    const BoxFacts& facts = choice.search->facts;
    for (std::size_t i = 0; i < facts.demand.lines.size(); ++i) {
        const LineWiring& wiring = facts.wiring[i];
        const PointLine& points = *facts.demand.lines[i].points;
        const std::int64_t direct = whole_pieces(piece_steps(wiring.direct.terminals));
        const std::int64_t through = whole_pieces(piece_steps(wiring.via.terminals));
        if (wiring.direct.channels > 0 && direct != 2)
            add(pieces(direct) + " for each " + points.wiring + " " + points.signal +
                (facts.demand.lines[i].signal->shielded ? " with its screen" : ""));
        if (wiring.via.channels > 0 && through != 2)
            add(pieces(through) + " for each " + points.signal + " through " + plain(points.via));
    }
    if (!facts.request->spare.wired()) add("spare channels without terminals");
    if (reasons.empty()) return "channels beyond the requirement";
    return listed(reasons);
}

/// "width 800 mm, height 1200 mm": the sides that are limited.
std::string size_limit(const Site& site, bool inch) {
    std::string text;
    const auto add = [&](const char* side, const std::optional<double>& most) {
        if (most) text += (text.empty() ? "" : ", ") + std::string(side) + length_text(*most, inch);
    };
    add("width ", site.max_width_mm);
    add("height ", site.max_height_mm);
    add("depth ", site.max_depth_mm);
    return text;
}

void room_findings(const PanelChoice& choice, const BoxResult& result,
                   const std::vector<PointResult>& points, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = box_path(box.index);
    if (box.choices.room.fraction() * 100 > sink.limit("SPACE_SPARE") && !result.enclosures.empty())
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
                  {"limit", size_limit(box.site, sink.inch())},
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
        const int by_percent = required_channels(point.used, request.spare.basis,
                                                 request.spare.percent.of(point.signal), 0);
        if (achieved <= asked + sink.limit("ROUNDING_WASTE") ||
            point.fitted <= by_percent + sink.second_limit("ROUNDING_WASTE"))
            continue;
        sink.add("ROUNDING_WASTE", "#/points/" + pieces(static_cast<std::int64_t>(first_point + i)),
                 {{"signal", point.signal},
                  {"box", point.box},
                  {"achieved", number_text(achieved, 1)},
                  {"demanded", number_text(asked)}},
                 point.signal + " at " + number_text(achieved, 1) + " %");
    }
}

/// Place of the box's system in the estimate; the box itself where it has no controller.
std::string system_path(const BidRequest& request, const Box& box) {
    if (box.controlled_by == ControlledBy::none) return "#" + box_path(box.index);
    std::int64_t place = 0;
    for (const Box& other : request.boxes)
        if (other.controlled_by == ControlledBy::own && other.index < box.controller_box) ++place;
    return "#/systems/" + pieces(place);
}

/// What a cheaper panel could save at most: the price of the difference to the lower bound of the
/// direct cost, which is 0 where the search has none.
std::string gap_text(const PanelChoice& choice) {
    const BidRequest& request = *choice.search->facts.request;
    const RuleBook& rules = *choice.search->rules;
    const double gap = static_cast<double>(choice.design->direct_cost - choice.lower_bound) /
                       10000 * (1 + request.commercial.contingency.fraction()) *
                       most_price_factor(request, rules);
    return number_text(gap, rules.digits_of(request.currency)) + " " + request.currency;
}

bool makes_any(const PriceBook& book, const std::string& maker) {
    return std::any_of(book.parts().begin(), book.parts().end(),
                       [&](const Part& part) { return part.maker == maker; });
}

/// Preferences that could not be kept, and what the own store lacks.
void stock_findings(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = box_path(box.index) + "/choices";
    std::string makers;
    for (const std::string& maker : box.choices.prefer_makers)
        makers += (makers.empty() ? "" : ", ") + maker;
    if (choice.preference_dropped)
        sink.add("PREFERENCE_NOT_MET", at + "/prefer_makers",
                 {{"box", box.name}, {"makers", makers}});
    for (const std::string& maker : box.choices.prefer_makers)
        if (!makes_any(*choice.search->book, maker))
            sink.add("HAND_CHOICE_AGAINST_RULE", at + "/prefer_makers",
                     {{"box", box.name},
                      {"part", maker},
                      {"rule", "the price book"},
                      {"expected", "a maker that it holds (the preference does nothing)"}},
                     maker);
    if (!box.choices.in_stock_only) return;
    for (const BillItem& item : choice.design->bill) {
        const std::int64_t needed = item.quantity * box.quantity;
        if (!item.part || needed <= item.part->stock.value_or(0)) continue;
        const std::string stock = pieces(item.part->stock.value_or(0));
        sink.add("STOCK_SHORT", at + "/in_stock_only",
                 {{"box", box.name},
                  {"part", item.part->key},
                  {"needed", pieces(needed)},
                  {"stock", stock}},
                 pieces(needed) + " of " + item.part->key + ", " + stock + " in stock");
    }
}

void hand_findings(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = box_path(box.index) + "/choices";
    const Part& enclosure = *choice.design->enclosure;
    if (choice.search->housing.walls_known &&
        !place_allows_material(box.site, enclosure.material, sink.rules()))
        sink.add("HAND_CHOICE_AGAINST_RULE", at,
                 {{"box", box.name},
                  {"part", enclosure.key},
                  {"rule", "the corrosion of the place"},
                  {"expected", allowed_materials(box.site, sink.rules())}},
                 enclosure.key + " of " + plain(enclosure.material));
    if (choice.search->housing.walls_known &&
        !part_meets(enclosure, box.site.protection, sink.rules()))
        sink.add("HAND_CHOICE_AGAINST_RULE", at,
                 {{"box", box.name},
                  {"part", enclosure.key},
                  {"rule", "the protection asked"},
                  {"expected", box.site.protection}},
                 enclosure.key);
    for (const std::string& part : box.choices.exclude)
        if (!choice.search->book->find(part))
            sink.add("HAND_CHOICE_AGAINST_RULE", at + "/exclude",
                     {{"box", box.name},
                      {"part", part},
                      {"rule", "the price book"},
                      {"expected", "a part that it holds (the exclusion does nothing)"}},
                     part);
}

} // namespace

void panel_findings(const PanelChoice& choice, const BoxResult& result,
                    const std::vector<PointResult>& points, const BidRequest& request,
                    FindingSink& sink) {
    const BoxFacts& facts = choice.search->facts;
    const Box& box = *facts.box;
    const auto first = points.begin() + static_cast<std::ptrdiff_t>(facts.first_point);
    const std::vector<PointResult> own(
        first, first + static_cast<std::ptrdiff_t>(facts.demand.signals.size()));
    demand_findings(choice, sink);
    load_findings(choice, result, sink);
    heat_findings(choice, result, sink);
    room_findings(choice, result, own, sink);
    waste_findings(own, request, facts.first_point, sink);
    choice_findings(choice, sink);
    power_findings(choice, result, sink);
    hand_findings(choice, sink);
    stock_findings(choice, sink);
    if (!choice.proven || !choice.design->mix_proven)
        sink.add("BOUND_GAP", system_path(request, box),
                 {{"system", box.name}, {"gap", gap_text(choice)}});
}

} // namespace backplate
