#include "pricing/panel/devices.h"

#include <algorithm>
#include <cmath>

#include "pricing/panel/assembly_facts.h"
#include "pricing/panel/line_wiring.h"
#include "pricing/panel/wiring.h"
#include "pricing/panel/work_counts.h"

namespace backplate {
namespace {

std::int64_t whole(const Rule& rule) { return round_to_steps(rule.value, 0, Rounding::up); }

void add(std::vector<BillItem>& bill, const Part* part, std::int64_t quantity,
         const std::string& role) {
    if (!part || quantity == 0) return;
    for (BillItem& item : bill)
        if (item.part == part && item.role == role) {
            item.quantity += quantity;
            return;
        }
    bill.push_back({part, nullptr, role, quantity});
}

void add_accessories(std::vector<BillItem>& bill, const SearchFacts& search) {
    std::vector<BillItem> extra;
    for (const BillItem& item : bill)
        for (const Accessory& accessory : item.part->accessories)
            add(extra, search.book->find(accessory.part), item.quantity * accessory.quantity,
                "accessory");
    std::sort(extra.begin(), extra.end(),
              [](const BillItem& a, const BillItem& b) { return a.part->key < b.part->key; });
    bill.insert(bill.end(), extra.begin(), extra.end());
}

void add_equipment(std::vector<BillItem>& bill, const SearchFacts& search, bool by_part) {
    for (const EquipmentFact& fact : search.facts.equipment)
        if ((fact.part != nullptr) == by_part && fact.asked->quantity > 0)
            bill.push_back({fact.part, &fact, role_of_equipment(fact), fact.asked->quantity});
}

void count_wiring(PanelDesign& design, const SearchFacts& search) {
    const std::int64_t of_signals = piece_steps(signal_terminal_terms(design, search));
    design.signal_terminals = whole_pieces(of_signals);
    design.terminals =
        whole_pieces(of_signals + piece_steps(device_terminal_terms(design, search)));
    design.wires = whole_pieces(piece_steps(wire_terms(design, search)));
    design.terminal_counts = terminal_counts(design, search);
}

void count_device(BoxCounts& counts, const BillItem& item, const RuleBook& rules) {
    const std::string kind = item.part ? item.part->kind : "equipment";
    const int pieces = static_cast<int>(item.quantity);
    const bool brings_hours = item.equipment && item.equipment->asked->hours;
    if (brings_hours) counts.own_hours += item.equipment->asked->hours->steps() * pieces;
    if (item.equipment && item.equipment->where == "door")
        return count_in_door(counts, item, rules);
    if (item.equipment && item.equipment->where == "outside") return;
    if (kind == "controller") {
        counts.controllers += pieces;
        counts.devices_large += pieces;
    } else if (kind == "module" || kind == "head" || kind == "feed") {
        counts.modules += pieces;
    } else if (brings_hours) {
        return;
    } else if (item.equipment && item.equipment->where == "plate") {
        counts.devices_on_plate += pieces;
        counts.devices += pieces;
    } else if (kind == "interface" || kind == "protection" || kind == "incoming" ||
               (item.equipment && item.equipment->of_assembly)) {
        counts.devices_small += pieces;
        counts.devices += pieces;
    } else if (kind == "supply" || kind == "transformer" || kind == "redundancy" ||
               kind == "backup" || kind == "heater" || kind == "main_switch" || kind == "network" ||
               item.equipment) {
        counts.devices_large += pieces;
        counts.devices += pieces;
    }
    if (kind == "main_switch") counts.cut_round += pieces;
}

void count_points(PanelDesign& design, const SearchFacts& search) {
    BoxCounts& counts = design.counts;
    const Demand& demand = search.facts.demand;
    const bool wired = search.facts.request->spare.wired();
    for (std::size_t i = 0; i < demand.lines.size(); ++i) {
        const DemandLine& line = demand.lines[i];
        counts.points += line.used;
        if (!brings_minutes(search.facts, *line.points)) {
            counts.points_by_class[line.signal->work_class] += line.used;
            counts.points_by_signal[line.signal->key] += line.used;
        }
        counts.tested_by_class[line.signal->work_class] += search.facts.planned[i];
        if (line.signal->shielded) counts.shields += search.facts.planned[i];
    }
    for (const ModuleUse& use : design.arrangement->member.uses)
        for (std::size_t mix = 0; mix < demand.mix.size(); ++mix) {
            const Signal& signal = *demand.lines[demand.mix[mix].lines.front()].signal;
            if (use.carried[mix] > 0) ++counts.modules_by_signal[signal.key];
            if (!wired) continue;
            counts.tested_by_class[signal.work_class] += use.extra[mix];
            if (signal.shielded) counts.shields += use.extra[mix];
        }
}

int up_to_whole(std::int64_t count, const Rule& each) {
    return static_cast<int>(std::ceil(static_cast<double>(count) / each.number()));
}

void count_sheets(PanelDesign& design, const SearchFacts& search) {
    BoxCounts& counts = design.counts;
    const auto row = [&](const char* key) -> const Rule* {
        const auto found = search.rules->sheets.find(key);
        return found == search.rules->sheets.end() ? nullptr : &found->second;
    };
    const auto times = [&](const char* key, int count) {
        const Rule* rule = row(key);
        return rule ? static_cast<int>(whole(*rule)) * count : 0;
    };
    const std::size_t apart = search.further.empty() ? 0 : search.further.front().groups.size();
    const int supplies = 1 + static_cast<int>(apart); // every way supplies as many groups
    counts.sheets_new =
        times("new box", 1) + times("new supply", supplies) + times("new network", counts.networks);
    counts.sheets_typical =
        times("typical controller", counts.controllers) + times("typical module", counts.modules);
    using Brings = AssemblyRow::Brings;
    using Occurrence = AssemblyRow::Occurrence;
    for (const Occurrence each : {Occurrence::each, Occurrence::first})
        counts.sheets_new += static_cast<int>(assembly_sum(search.facts, Brings::sheets, each));
    counts.sheets_typical +=
        static_cast<int>(assembly_sum(search.facts, Brings::sheets, Occurrence::repeat));
    if (const Rule* each = row("typical per protection"))
        counts.sheets_typical += up_to_whole(design.protection_channels, *each);
    counts.sheets_generated = times("generated box", 1);
    if (const Rule* each = row("generated per terminals"))
        counts.sheets_generated += up_to_whole(design.terminals, *each);
    if (const Rule* each = row("generated per wires"))
        counts.sheets_generated += up_to_whole(design.wires, *each);
}

void count_work(PanelDesign& design, const SearchFacts& search) {
    BoxCounts& counts = design.counts;
    const BoxWork& work = search.facts.box->work;
    counts.loops = work.loops;
    counts.screens = work.screens;
    counts.network_devices = work.network_devices;
    counts.soft_points = work.soft_points;
    const bool led = search.facts.box->controlled_by == ControlledBy::other_box;
    bool on_bus = false;
    for (const AssemblyFact& fact : search.facts.assemblies) {
        on_bus = on_bus ||
                 (fact.row->brings == AssemblyRow::Brings::network && fact.row->count.number() > 0);
        if (fact.row->brings == AssemblyRow::Brings::minutes)
            counts.assembly_minutes += fact.times * static_cast<int>(whole(fact.row->count));
    }
    int switches = 0;
    for (const BillItem& item : design.bill)
        if (item.part && item.part->kind == "network") switches += static_cast<int>(item.quantity);
    bool talks = on_bus || work.screens > 0 || work.network_devices > 0;
    if (!led) // the line to a led box is part of the network of its controller
        talks = talks || switches > 0 || search.facts.links > 0 || design.arrangement->heads > 0;
    counts.networks = talks ? 1 : 0;
    counts.network_leads = design.arrangement->heads + search.facts.links;
    if (switches > 0) counts.network_leads += switches + counts.cut_rectangular;
    if (design.stage.name == "filter_fan") counts.cut_rectangular += 2 * design.stage.quantity;
    if (design.stage.name == "air_exchanger" || holds_set_point(design.stage))
        counts.cut_rectangular += design.stage.quantity;
    if (const auto cable = search.rules->wires.find("points per cable");
        cable != search.rules->wires.end())
        counts.cut_gland =
            up_to_whole(counts.points, cable->second) - static_cast<int>(search.small.on_plates);
    counts.cut_rectangular += static_cast<int>(search.small.plates);
}

/// Are there signals at mains voltage, whose terminals want a strip of their own.
bool at_mains_level(const BoxFacts& facts) {
    return std::any_of(facts.demand.lines.begin(), facts.demand.lines.end(),
                       [](const DemandLine& line) { return line.signal->mains_level; });
}

/// Strips without the one of signals at mains voltage.
int plain_strips(const PanelDesign& design, const RoomRules& rules) {
    return rules.terminals_per_strip ? up_to_whole(design.terminals, *rules.terminals_per_strip)
                                     : 1;
}

/// Height of the terminals of the feeds with the room in which their conductors bend on either
/// side; 0 where none is asked or the conductor is not known yet.
std::int64_t bent_height(const PanelDesign& design, const SearchFacts& search) {
    const IncomingChoice& incoming = design.incoming;
    const auto space = bending_at_terminals(design, search);
    if (!space) return 0;
    double tallest = 0;
    for (const Part* part : {incoming.terminal, incoming.earth_terminal})
        tallest = std::max(tallest, part->height_mm.value_or(0));
    return tenths(tallest) + 2 * tenths(*space);
}

/// Terminals with the ends of their strips.
void add_strips(BandNeed& strip, const PanelDesign& design, const SearchFacts& search) {
    const RoomRules& rules = search.rules->room;
    for (const TerminalCount& count : design.terminal_counts) {
        const std::int64_t each = tenths(count.part->width_mm.value_or(0));
        strip.width += count.pieces * each;
        strip.widest = std::max(strip.widest, each);
        if (count.pieces > 0)
            strip.tallest = std::max(strip.tallest, tenths(count.part->height_mm.value_or(0)));
    }
    strip.bent = bent_height(design, search);
    if (rules.strip_ends_mm) {
        const std::int64_t ends = tenths(rules.strip_ends_mm->number());
        strip.width += plain_strips(design, rules) * ends;
        if (at_mains_level(search.facts)) strip.partition = ends;
    }
}

} // namespace

std::string role_of_equipment(const EquipmentFact& fact) {
    if (fact.of_assembly) return "assembly";
    if (fact.part) return fact.part->kind;
    const bool free = fact.asked->price && fact.asked->price->is_zero();
    return free ? "free_issue" : "equipment";
}

std::vector<BillItem> devices_of(const PanelDesign& design, const SearchFacts& search) {
    std::vector<BillItem> bill;
    for (const Station& station : design.arrangement->stations)
        for (const Place& place : station.places) add(bill, place.part, 1, place.part->kind);
    add_accessories(bill, search);
    for (const InterfaceFact& fact : search.facts.interfaces) {
        add(bill, fact.part, fact.count, "interface");
        const Interface& row = *search.facts.demand.lines[fact.line].interface;
        for (BillItem& item : bill)
            if (item.part == fact.part && !fact.part->width_mm) item.width_mm = row.width_mm;
    }
    add(bill, design.supply.part, design.supply.quantity, "supply");
    add(bill, design.supply.decoupler, design.supply.decouplers, "redundancy");
    add(bill, design.backup, design.backup_pieces, "backup");
    for (const GroupSupply& group : design.further)
        for (const auto& [part, pieces] : group.parts()) add(bill, part, pieces, part->kind);
    const int feeds = search.facts.box->site.feeds;
    add(bill, design.incoming.breaker, feeds, "incoming");
    add(bill, design.incoming.main_switch, feeds * design.incoming.switches, "incoming");
    add(bill, design.protection, design.protection_channels, "protection");
    add_equipment(bill, search, true);
    if (design.heating) {
        add(bill, design.heating->heater, design.heating->pieces, "heater");
        add(bill, design.heating->control, 1, "heater");
    }
    add(bill, design.stage.part, design.stage.quantity, "cooling");
    return bill;
}

void count_devices(PanelDesign& design, const SearchFacts& search) {
    design.counts = BoxCounts{};
    design.counts.cutout_hundredths = search.least_cutout;
    for (const BillItem& item : design.bill) count_device(design.counts, item, *search.rules);
    count_wiring(design, search);
    count_points(design, search);
    count_work(design, search);
    count_scope(design, search);
    count_power_wires(design, search);
    count_sheets(design, search);
    design.counts.terminals = design.terminals;
    design.counts.wires = design.wires;
}

int strips_of(const PanelDesign& design, const SearchFacts& search) {
    return plain_strips(design, search.rules->room) + (at_mains_level(search.facts) ? 1 : 0);
}

std::optional<Band> band_on_rail(const BillItem& item) {
    if (item.equipment) {
        const bool placed = item.equipment->where == "rail" || item.equipment->where == "plate";
        if (!placed) return std::nullopt;
        return item.equipment->band;
    }
    const std::string& kind = item.part->kind;
    if (kind == "incoming" || kind == "main_switch") return Band::mains;
    if (kind == "supply" || kind == "transformer" || kind == "redundancy" || kind == "backup")
        return Band::supply;
    if (kind == "controller" || kind == "head" || kind == "feed" || kind == "module")
        return Band::platform;
    if (kind == "interface" || kind == "protection" || kind == "heater") return Band::other;
    return std::nullopt;
}

double width_on_rail(const BillItem& item, const RoomRules& rules) {
    const std::array<const RoomBand*, 5> bands{&rules.mains, &rules.supply, &rules.platform,
                                               &rules.other, &rules.terminals};
    const double own =
        item.equipment ? item.equipment->width_mm : item.part->width_mm.value_or(item.width_mm);
    const OptionalRule& side = bands[static_cast<std::size_t>(*band_on_rail(item))]->side_mm;
    return own > 0 && side ? own + 2 * side->number() : own;
}

RoomNeed room_need(const PanelDesign& design, const SearchFacts& search) {
    RoomNeed need;
    const RoomRules& rules = search.rules->room;
    for (std::size_t band = 0; band < need.bands.size(); ++band)
        need.bands[band].widest = search.widest[band];
    for (const BillItem& item : design.bill) {
        const double depth =
            item.equipment ? item.equipment->depth_mm : item.part->depth_mm.value_or(0);
        if (item.equipment && item.equipment->where == "door")
            need.deepest_door_mm = std::max(need.deepest_door_mm, depth);
        const auto band = band_on_rail(item);
        if (!band) continue;
        const std::int64_t width = tenths(width_on_rail(item, rules));
        BandNeed& own = need.bands[static_cast<std::size_t>(*band)];
        own.width += width * item.quantity;
        own.widest = std::max(own.widest, width);
        const double height =
            item.equipment ? item.equipment->height_mm : item.part->height_mm.value_or(0);
        if (width > 0) own.tallest = std::max(own.tallest, tenths(height));
        need.deepest_mm = std::max(need.deepest_mm, depth);
    }
    BandNeed& platform = need.bands[static_cast<std::size_t>(Band::platform)];
    platform.width += design.more_width;
    if (platform.width > 0) platform.tallest = std::max(platform.tallest, search.tallest_module);
    add_strips(need.bands[static_cast<std::size_t>(Band::terminals)], design, search);
    need.wires_and_cores = design.wires + design.signal_terminals;
    return need;
}

} // namespace backplate
