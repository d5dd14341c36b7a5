#include "pricing/job/box_result.h"

#include <algorithm>
#include <map>

#include "pricing/mix/assign_channels.h"
#include "pricing/panel/distribution.h"
#include "pricing/panel/layout.h"
#include "pricing/panel/passed_stages.h"
#include "pricing/panel/short_circuit.h"

namespace backplate {
namespace {

std::vector<ModuleResult> modules_of(const PanelDesign& design) {
    std::vector<ModuleResult> modules;
    for (const Station& station : design.arrangement->stations)
        for (const Place& place : station.places) {
            const auto found =
                std::find_if(modules.begin(), modules.end(), [&](const ModuleResult& module) {
                    return module.part == place.part->key;
                });
            if (found == modules.end())
                modules.push_back({place.part->key, place.part->kind, 1});
            else
                ++found->quantity;
        }
    return modules;
}

ChannelResult channel_of(const AssignedChannel& channel) {
    ChannelResult result{channel.number, channel.group, "", "", "", channel.entry < 0, ""};
    if (!channel.points) return result;
    const PointLine& points = *channel.points;
    result.signal = points.signal;
    result.fed_from = points.fed_from_box ? "box" : "field";
    const auto at = static_cast<std::size_t>(channel.entry);
    if (channel.entry < 0 || at >= points.list.size()) return result;
    result.tag = points.list[at].tag;
    result.device = points.list[at].device;
    return result;
}

std::vector<StationResult> stations_of(const PanelDesign& design, const Demand& demand,
                                       const std::string& box) {
    std::vector<const ModuleUse*> uses;
    for (const Station& station : design.arrangement->stations)
        for (const Place& place : station.places)
            if (place.use >= 0)
                uses.push_back(
                    &design.arrangement->member.uses[static_cast<std::size_t>(place.use)]);
    const auto assigned = assign_channels(uses, demand);
    auto next = assigned.begin();
    std::vector<StationResult> stations;
    for (const Station& station : design.arrangement->stations) {
        StationResult result;
        const std::size_t number = stations.size();
        result.name =
            number == 0 ? box : box + "." + steps_text(static_cast<std::int64_t>(number), 0);
        for (const Place& place : station.places) {
            PlaceResult at{place.part->key, {}};
            if (place.use >= 0)
                for (const AssignedChannel& channel : *next++)
                    at.channels.push_back(channel_of(channel));
            result.places.push_back(std::move(at));
        }
        stations.push_back(std::move(result));
    }
    return stations;
}

HeatResult heat_of(const PanelDesign& design, const Box& box, Celsius highest, bool walls_known,
                   const RuleBook& rules, Work& work) {
    HeatResult heat;
    heat.inside = design.inside;
    heat.limit = design.limit;
    if (design.stage.part) heat.parts.push_back({design.stage.part->key, design.stage.quantity});
    if (!walls_known) {
        heat.stage = design.stage.part ? design.stage.name : "";
        return heat;
    }
    heat.stage = design.stage.name;
    const double outside = box.site.ambient_high_c;
    const Celsius mid =
        settled_mid(design.enclosure, box, design.stage, design.inside, highest, rules, work);
    heat.mid = mid;
    if (holds_set_point(design.stage)) {
        heat.top = heat.second_method_top = mid; // it stirs the air and holds it
    } else {
        heat.top = Celsius{outside + rules.heat.top_factor.number() * (mid.value - outside)};
        heat.second_method_top =
            second_method_top(design.enclosure, box, design.stage, design.inside, rules);
    }
    return heat;
}

EnclosureResult enclosure_of(const PanelDesign& design, const Box& box, const RuleBook& rules) {
    const Part& part = *design.enclosure;
    EnclosureResult result;
    result.part = part.key;
    result.quantity = design.enclosure.pieces;
    result.width_mm = part.width_mm;
    result.height_mm = part.height_mm;
    result.depth_mm = part.depth_mm;
    result.plate_width_mm = part.plate_width_mm.value_or(0);
    result.plate_height_mm = part.plate_height_mm.value_or(0);
    result.protection = finished_mark(part, design.stage.part, box.site.protection, rules);
    result.material = part.material;
    result.room_left_percent = design.room.room_left_percent;
    return result;
}

/// With spare over the job every further point brings its share beside what the box took.
int headroom_of(const PointResult& point, const SpareRule& spare, int minimum) {
    if (point.used == 0) return 0;
    int more = point.used;
    const auto by_rule = [&](int used) {
        return spare.kind == SpareKind::slot
                   ? used
                   : required_channels(used, spare.basis, spare.percent.of(point.signal), minimum);
    };
    const int beside = spare.over_job ? point.required - by_rule(point.used) : 0;
    const auto required = [&](int used) { return by_rule(used) + beside; };
    while (required(more + 1) <= point.fitted) ++more;
    return more - point.used;
}

SupplyResult transformer_result(const GroupSupply& group, const TransformerRules& rules,
                                std::optional<Celsius> air) {
    SupplyResult result;
    const double volts = *group.units.part->output_v;
    result.load = group.together;
    result.load_all_on = group.all_on;
    result.rated = group.rated();
    result.part = group.units.part->key;
    result.air = air;
    result.derating.temperature = 1;
    result.derating.utilisation = nameplate_share(rules);
    result.required = Amperes{result.load.value / result.derating.utilisation};
    const double sealed = result.load.value * volts;
    result.selection_va = selection_va(sealed, sealed * rules.inrush_factor.number());
    result.volts = volts;
    result.alternating = true;
    if (group.primary.part) result.primary = Amperes{*group.primary.part->rated_a};
    if (group.secondary.part) result.secondary = Amperes{*group.secondary.part->rated_a};
    return result;
}

/// The main supply, then those of groups of their own.
std::vector<SupplyResult> supplies_of(const PanelDesign& design, const SearchFacts& search,
                                      std::optional<Celsius> air) {
    std::vector<SupplyResult> results;
    const RuleBook& rules = *search.rules;
    const double altitude = search.facts.box->site.altitude_m;
    bool parted = false;
    if (design.supply.part) {
        results.push_back(supply_result(design.supply, design.together, design.all_on, air,
                                        altitude, rules.supply));
        if (design.backup)
            results.back().parts.push_back({design.backup->key, design.backup_pieces});
    }
    for (const GroupSupply& group : design.further) {
        results.push_back(group.transforms()
                              ? transformer_result(group, *rules.transformers, air)
                              : supply_result(group.units, group.together, group.all_on, air,
                                              altitude, rules.supply));
        SupplyResult& result = results.back();
        result.group = search.facts.groups[group.group].word;
        parted = parted || result.group == "outputs";
        if (group.protection) result.parts.push_back({group.protection->key, group.channels});
        for (const SideProtection* side : {&group.primary, &group.secondary})
            if (side->part) result.parts.push_back({side->part->key, side->pieces});
    }
    if (parted && design.supply.part) results.front().group = "control";
    return results;
}

} // namespace

BoxResult box_result(const PanelChoice& choice, const RuleBook& rules, Work& work) {
    const PanelDesign& design = *choice.design;
    const Box& box = *choice.search->facts.box;
    BoxResult result;
    result.name = box.name;
    result.quantity = box.quantity;
    result.modules = modules_of(design);
    result.stations = stations_of(design, choice.search->facts.demand, box.name);
    result.heat = heat_of(design, box, highest_top(design, *choice.search),
                          choice.search->housing.walls_known, rules, work);
    result.heat.passed_over = passed_stages(design, *choice.search, work);
    if (design.stage.name == "filter_fan") result.heat.flow_m3h = useful_flow(design.stage, rules);
    result.supplies = supplies_of(design, *choice.search, result.heat.top);
    result.enclosures.push_back(enclosure_of(design, box, rules));
    result.incoming = IncomingResult{design.incoming.load,
                                     {*design.incoming.breaker->rated_a},
                                     design.incoming.conductor->size,
                                     design.incoming.breaker->key,
                                     design.incoming.conductor_a,
                                     supply_wire_ampacity(design, *choice.search),
                                     bending_at_terminals(design, *choice.search)};
    if (design.protection)
        result.protection = ProtectionResult{design.protection->key, design.protection_channels};
    result.short_circuit = short_circuit_of(design, *choice.search);
    result.terminals = design.terminals;
    result.wires = design.wires;
    result.layout = lay_out(design, *choice.search);
    result.distribution = distribute_24v(design, *choice.search, result.layout);
    return result;
}

std::vector<PointResult> point_results(const PanelChoice& choice, const BidRequest& request) {
    std::vector<PointResult> points;
    const BoxFacts& facts = choice.search->facts;
    std::map<std::string, int> fitted;
    if (choice.design)
        for (const ModuleUse& use : choice.design->arrangement->member.uses)
            for (std::size_t mix = 0; mix < use.extra.size(); ++mix)
                fitted[facts.demand.lines[facts.demand.mix[mix].lines.front()].points->signal] +=
                    use.extra[mix];
    for (const SignalDemand& signal : facts.demand.signals) {
        PointResult point{facts.box->name, signal.signal, signal.used, signal.required, 0, 0};
        if (choice.design) {
            point.fitted = signal.required + fitted[signal.signal];
            point.headroom = headroom_of(point, request.spare, signal.minimum);
        }
        points.push_back(point);
    }
    return points;
}

} // namespace backplate
