#include "pricing/panel/candidate.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "pricing/panel/backup.h"
#include "pricing/panel/conductors.h"
#include "pricing/panel/devices.h"
#include "pricing/panel/panel_bill.h"
#include "pricing/panel/work_counts.h"

namespace backplate {
namespace {

std::int64_t whole(const Rule& rule) { return round_to_steps(rule.value, 0, Rounding::up); }

/// As many channels as the rule asks for and the load fills; of the ratings the cheapest in all.
void choose_protection(PanelDesign& design, const SearchFacts& search, double all_on_a) {
    design.protection = nullptr;
    design.protection_channels = 0;
    design.protected_a = all_on_a;
    if (search.without_24v) return;
    std::int64_t least = 0;
    const auto row = search.rules->protection.find("distribution_channels");
    if (row != search.rules->protection.end()) least = whole(row->second);
    for (const GroupSupply& group : design.further) least -= group.channels; // a part of them
    std::int64_t best_price = 0;
    for (const Part* part : search.parts.protections) {
        const std::int64_t pieces =
            std::max<std::int64_t>(least, need_in(all_on_a / *part->rated_a, 1));
        const std::int64_t price = part->net()->steps() * pieces;
        if (design.protection && price >= best_price) continue;
        best_price = price;
        design.protection = part;
        design.protection_channels = static_cast<int>(pieces);
    }
}

/// Adds consumers that came last, in all their pieces.
void add_consumers(PanelDesign& design, const SearchFacts& search,
                   const std::vector<std::pair<const Part*, int>>& parts) {
    for (const Consumer& consumer :
         chosen_consumers(search.facts, Arrangement{}, parts, *search.rules))
        design.load += consumer;
}

/// What draws at 24 V whatever supply and cooling are chosen.
BoxLoad load_without_power(const PanelDesign& design, const SearchFacts& search) {
    BoxLoad load = sum_of(search.fixed);
    for (const Consumer& consumer :
         chosen_consumers(search.facts, *design.arrangement, {}, *search.rules))
        load += consumer;
    return load;
}

/// Adds protection, fans, decoupling and backup, then the future load, the supply's loss and the
/// heat inside. False where no backup carries the load.
bool fill_load(PanelDesign& design, const SearchFacts& search) {
    const RuleBook& rules = *search.rules;
    const Choices& choices = search.facts.box->choices;
    const double future = 1 + choices.future_load.fraction();
    choose_protection(design, search, design.load.all_on_a * future);
    add_consumers(design, search, other_consumers(design));
    if (choices.backup_minutes > 0) {
        design.all_on = {design.load.all_on_a * future};
        const auto backup =
            cheapest_backup(search, design.load.together_a * future, design.load.all_on_a * future);
        if (!backup) return false;
        design.backup = backup->part;
        design.backup_pieces = backup->pieces;
        add_consumers(design, search, {{backup->part, backup->pieces}});
    }
    design.all_on = {design.load.all_on_a * future};
    design.together = {design.load.together_a * future};
    design.inside = {design.load.inside_w +
                     supply_loss(design.supply, design.all_on, rules.supply).value};
    for (const GroupSupply& group : design.further)
        design.inside += Watts{group.loss.value + group.own_w.value};
    for (const auto& [part, pieces] : warm_parts(design))
        design.inside += Watts{part->own_w.value_or(0) * pieces};
    return true;
}

/// Input current of the most loaded line of one feed, which may carry everything: consumers on one
/// phase all count on the same one. Source: electrical-facts 1.
Amperes mains_load(const PanelDesign& design, const SearchFacts& search) {
    const SupplyRules& rules = search.rules->supply;
    const Site& site = search.facts.box->site;
    const double supply_w = design.all_on.value * rules.volts.number() +
                            supply_loss(design.supply, design.all_on, rules).value;
    double climate = 0; // a heater and a cooler never run together
    for (const auto& [part, pieces] : climate_parts(design))
        climate = std::max(climate, *part->own_w * pieces * amps_per_watt(*part, site));
    double supplies = design.supply.part ? supply_w * amps_per_watt(*design.supply.part, site) : 0;
    double transformers = 0; // in VA already
    for (const GroupSupply& group : design.further)
        (group.transforms() ? transformers : supplies) +=
            group.watts_at_mains * amps_per_watt(*group.units.part, site);
    return {(supplies + climate) / power_factor_on(site, *search.rules) + transformers +
            search.direct.value};
}

void add_text_equipment(PanelDesign& design, const SearchFacts& search) {
    for (const EquipmentFact& fact : search.facts.equipment)
        if (!fact.part && fact.asked->quantity > 0)
            design.bill.push_back({nullptr, &fact, role_of_equipment(fact), fact.asked->quantity});
}

/// Incoming device, bill without the enclosure, counts, limit and room asked. False where no
/// incoming device of the lists serves.
bool take_devices(PanelDesign& design, const SearchFacts& search) {
    const auto incoming = choose_incoming(search.incoming, search.facts, mains_load(design, search),
                                          peak_at_mains(design, search.facts.box->site.feeds));
    if (!incoming) return false;
    design.incoming = *incoming;
    design.supply_wire = design.supply.wire;
    if (!design.supply_wire) return false;
    design.bill = devices_of(design, search);
    add_text_equipment(design, search);
    count_devices(design, search);
    design.limit = device_limit(design, search);
    design.need = room_need(design, search);
    add_terminals(design);
    add_wires(design, search);
    add_small_parts(design, search, true);
    design.counts.bill_lines = lines_with_work(design) + 1; // and the sundries
    design.material = material_of(design);
    design.direct_cost = direct_cost(design, search);
    return true;
}

/// Heater and control where the cold asks for them and the price book holds them: they take rail,
/// mains current and hours, so the devices are taken once more. False as above.
bool keep_warm(PanelDesign& design, const SearchFacts& search, const Suite& enclosure) {
    const Box& box = *search.facts.box;
    design.cold = cold_need(box.site, parts_min_c(design), *search.rules);
    if (design.cold.rise.value <= 0) return true;
    const Watts need = heater_need(enclosure, box, design.cold.rise, *search.rules);
    design.heating = choose_heating(search.heating, need, design.cold.dew);
    return !design.heating || take_devices(design, search);
}

} // namespace

PanelDesign with_arrangement(const SearchFacts& search, const PlatformCase& platform,
                             Arrangement arrangement) {
    PanelDesign design;
    design.leader = platform.leader;
    if (search.facts.no_controller) arrangement.stations.clear();
    if (platform.safety) {
        auto& places = arrangement.stations.front().places;
        places.insert(places.begin() + 1, {platform.safety, -1});
    }
    if (search.facts.box->choices.redundant_controller) {
        auto& places = arrangement.stations.front().places;
        places.insert(places.begin() + 1, {platform.leader, -1}); // the one that stands by
    }
    design.arrangement = std::make_shared<const Arrangement>(std::move(arrangement));
    design.bill = devices_of(design, search);
    add_text_equipment(design, search);
    count_devices(design, search);
    design.load = load_without_power(design, search);
    design.counts.bill_lines = lines_with_work(design) + 1; // and the sundries
    design.direct_cost = direct_cost(design, search);
    design.material = material_of(design);
    return design;
}

std::vector<std::pair<const Part*, int>> warm_parts(const PanelDesign& design) {
    std::vector<std::pair<const Part*, int>> parts;
    const auto add = [&](const Part* part, int pieces) {
        if (part && !part->own_a && part->own_w) parts.emplace_back(part, pieces);
    };
    if (design.stage.name != "cooling_unit") add(design.stage.part, design.stage.quantity);
    add(design.supply.decoupler, design.supply.decouplers);
    for (const GroupSupply& group : design.further)
        add(group.units.decoupler, group.units.decouplers);
    add(design.backup, design.backup_pieces);
    return parts;
}

std::vector<std::pair<const Part*, int>> climate_parts(const PanelDesign& design) {
    std::vector<std::pair<const Part*, int>> parts;
    const Part* cooler = design.stage.part;
    if (cooler && !cooler->own_a && cooler->own_w)
        parts.emplace_back(cooler, design.stage.quantity);
    if (design.heating) parts.emplace_back(design.heating->heater, design.heating->pieces);
    return parts;
}

std::vector<std::pair<const Part*, int>> other_consumers(const PanelDesign& design) {
    std::vector<std::pair<const Part*, int>> parts;
    if (design.protection) parts.emplace_back(design.protection, design.protection_channels);
    if (design.stage.part) parts.emplace_back(design.stage.part, design.stage.quantity);
    if (design.supply.decoupler)
        parts.emplace_back(design.supply.decoupler, design.supply.decouplers);
    if (design.backup) parts.emplace_back(design.backup, design.backup_pieces);
    return parts;
}

std::optional<double> parts_min_c(const PanelDesign& design) {
    std::optional<double> highest;
    for (const BillItem& item : design.bill)
        if (item.part && item.part->min_c && item.part->kind != "heater")
            highest = std::max(highest.value_or(*item.part->min_c), *item.part->min_c);
    return highest;
}

bool too_weak(const PanelDesign& start, const SearchFacts& search, const SupplyChoice& supply) {
    return !highest_air(supply, {start.load.together_a}, search.facts.box->site.altitude_m,
                        search.rules->supply);
}

Celsius device_limit(const PanelDesign& design, const SearchFacts& search) {
    double limit = std::numeric_limits<double>::infinity();
    for (const BillItem& item : design.bill)
        if (item.part && item.part->max_c && item.part->kind != "supply")
            limit = std::min(limit, *item.part->max_c);
    limit -= search.rules->heat.reserve_k.number();
    const auto& asked = search.facts.box->choices.inside_max_c;
    return {asked ? std::min(limit, *asked) : limit};
}

Celsius highest_top(const PanelDesign& design, const SearchFacts& search) {
    const auto supply = highest_air(design.supply, design.together,
                                    search.facts.box->site.altitude_m, search.rules->supply);
    if (!supply) return {-273.15};
    double highest = std::min(design.limit.value, supply->value);
    for (const GroupSupply& group : design.further)
        highest = std::min(highest, group.highest_air.value);
    return {highest};
}

std::int64_t least_cost(const PanelDesign& start, const SearchFacts& search,
                        const SupplyChoice& supply) {
    PanelDesign design = start;
    design.supply = supply;
    std::int64_t more_pieces = 0;
    if (supply.part) { // the work of one piece: a dearer supply may stand alone
        design.supply.quantity = 1;
        more_pieces = supply.part->net()->steps() * (supply.quantity - 1);
        if (supply.decoupler) {
            design.supply.decouplers = 1;
            more_pieces += supply.decoupler->net()->steps() * (supply.decouplers - 1);
        }
    }
    if (const auto backup = cheapest_backup(search, design.load.together_a, design.load.all_on_a);
        backup && search.facts.box->choices.backup_minutes > 0) {
        design.backup = backup->part;
        design.backup_pieces = 1;
        more_pieces += backup->price - backup->part->net()->steps();
    }
    design.incoming.breaker = search.parts.cheapest_breaker;
    design.incoming.main_switch = search.parts.cheapest_switch;
    design.incoming.switches = switches_per_feed(*search.rules);
    choose_protection(design, search, design.load.all_on_a);
    design.bill = devices_of(design, search);
    add_text_equipment(design, search);
    count_devices(design, search);
    add_terminals(design);
    add_item(design, search.parts.wire, wire_metres(design.wires, search));
    add_small_parts(design, search, false);
    design.counts.bill_lines = lines_with_work(design);
    return direct_cost(design, search) + in_all_boxes(more_pieces, search);
}

CoolingStage stage_of(const SearchFacts& search, std::size_t stage, int enclosures) {
    CoolingStage all = search.stages[stage];
    all.quantity *= enclosures;
    return all;
}

Amperes peak_at_mains(const PanelDesign& design, int feeds) {
    double peak = inrush_of(design.supply, feeds);
    for (const GroupSupply& group : design.further) peak += inrush_of(group.units, feeds);
    return {peak};
}

Refusal with_power(PanelDesign& design, const SearchFacts& search, const SupplyChoice& supply,
                   const FurtherSupplies& further, std::size_t stage, int enclosures) {
    design.supply = supply;
    design.further = further.groups;
    design.stage = stage_of(search, stage, enclosures);
    design.stage_index = stage;
    if (!fill_load(design, search)) return Refusal::backup;
    if (!highest_air(supply, design.together, search.facts.box->site.altitude_m,
                     search.rules->supply))
        return Refusal::supply;
    return take_devices(design, search) ? Refusal::none : Refusal::incoming;
}

RoomDemand room_demand(const RoomNeed& need, const SearchFacts& search) {
    return {need, search.facts.box->choices.room, search.rules->room};
}

Refusal look_into(const PanelDesign& design, const SearchFacts& search, const RoomDemand& room,
                  const Suite& enclosure, ShedTable& shed, std::optional<RoomPlan>& plan) {
    if (!deep_enough(design.need, *enclosure, search.rules->room)) return Refusal::depth;
    plan = room.on(enclosure);
    if (!plan) return Refusal::room;
    if (search.housing.walls_known &&
        need_in(design.inside.value, 0.001) > shed.milliwatts(enclosure, design.stage_index,
                                                              design.stage,
                                                              highest_top(design, search)))
        return Refusal::heat;
    return Refusal::none;
}

Refusal in_enclosure(PanelDesign& design, const SearchFacts& search, const Suite& enclosure,
                     ShedTable& shed) {
    if (search.housing.walls_known && !keep_warm(design, search, enclosure))
        return Refusal::incoming;
    std::optional<RoomPlan> plan;
    const Refusal refusal =
        look_into(design, search, room_demand(design.need, search), enclosure, shed, plan);
    if (refusal != Refusal::none) return refusal;
    design.enclosure = enclosure;
    design.room = *plan;
    design.counts.rail_rows = plan->total_rows;
    count_enclosure(design.counts, search.housing, enclosure);
    complete_bill(design, search);
    design.counts.bill_lines = lines_with_work(design) + 1; // and the sundries
    design.direct_cost = direct_cost(design, search);
    return Refusal::none;
}

} // namespace backplate
