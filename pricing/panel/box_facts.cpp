#include "pricing/panel/box_facts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "pricing/panel/assembly_facts.h"
#include "pricing/panel/line_wiring.h"
#include "pricing/panel/link_facts.h"
#include "pricing/panel/surge_facts.h"

namespace backplate {
namespace {

bool within_rating(const Part& part, double amps) { return !part.rated_a || *part.rated_a >= amps; }

/// A part that states the input it takes must take the field's voltage.
bool takes_volts(const Part& part, const PointLine& points) {
    if (!points.volts) return true;
    return (!part.input_min_v || *points.volts >= *part.input_min_v) &&
           (!part.input_max_v || *points.volts <= *part.input_max_v);
}

Band band_of(const Part& part) {
    if (part.kind == "incoming" || part.kind == "main_switch") return Band::mains;
    if (part.kind == "supply" || part.kind == "redundancy" || part.kind == "backup")
        return Band::supply;
    return Band::other;
}

std::string place_of(const Equipment& asked, const Part* part) {
    if (!asked.where.empty()) return asked.where;
    return part && part->kind == "door" ? "door" : "rail";
}

bool asks_interface(const PointLine& points) {
    return !points.via.empty() && points.via != "direct";
}

/// By the lines of the box; null where the line takes none or there is none.
std::vector<const Part*> interface_parts(BoxFacts& facts, const PriceBook& book,
                                         const RuleBook& rules) {
    std::vector<const Part*> parts;
    for (const PointLine& points : facts.box->points) {
        parts.push_back(nullptr);
        if (!asks_interface(points)) continue;
        const Interface* row = rules.find_interface(points.via, points.signal);
        if (!row) {
            facts.limits.push_back("no rule row for an interface (" + points.via + ") of " +
                                   points.signal);
            continue;
        }
        if (row->part_kind.empty()) continue;
        parts.back() = interface_part(book, facts, *row, points);
        if (!parts.back())
            facts.limits.push_back(
                "no interface (" + (row->function.empty() ? points.via : row->function) + ") for " +
                points.signal + " of " + number_text(points.amps, 2) + " A in the price book");
    }
    return parts;
}

/// What an output of the module must give, by the lines of the box.
std::vector<double> input_amps(const Box& box, const RuleBook& rules,
                               const std::vector<const Part*>& parts) {
    std::vector<double> amps;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Interface* row = rules.find_interface(box.points[i].via, box.points[i].signal);
        amps.push_back(parts[i] ? row->parts_per_channel * interface_amps(*parts[i], *row) : 0);
    }
    return amps;
}

void add_interface(BoxFacts& facts, std::size_t index, const Part* part) {
    const DemandLine& line = facts.demand.lines[index];
    if (!line.interface) return;
    const bool for_spare = facts.request->spare.kind == SpareKind::wired;
    const int channels = for_spare ? line.required : line.used;
    facts.wiring[index].via.channels = channels;
    if (!part) return;
    const int pieces = static_cast<int>(need_in(channels * line.interface->parts_per_channel, 1));
    facts.interfaces.push_back({index, part, pieces});
}

/// A voltage that no channel of the signal takes; behind an interface its contact decides.
void check_volts(const DemandLine& line, std::vector<std::string>& limits) {
    const Signal& signal = *line.signal;
    const bool taken_over = line.interface && !line.interface->keeps_signal();
    if (taken_over || !line.points->volts) return;
    const double volts = *line.points->volts;
    const bool low = signal.volts_low && volts < signal.volts_low->number();
    const bool high = signal.volts_high && volts > signal.volts_high->number();
    if (low || high)
        limits.push_back(
            "no module for " + signal.key + " at " + number_text(volts) + " V (channels take " +
            (signal.volts_low ? signal.volts_low->text() : std::string("0")) + " to " +
            (signal.volts_high ? signal.volts_high->text() : std::string("any")) + " V)");
}

bool controls_safety(const BidRequest& request, const Box& own, const RuleBook& rules) {
    return std::any_of(request.boxes.begin(), request.boxes.end(), [&](const Box& box) {
        return box.controller_box == own.index && holds_safety(box, rules);
    });
}

std::shared_ptr<const Part> no_controller() {
    auto part = std::make_shared<Part>();
    part->kind = "controller";
    part->list = Money{};
    return part;
}

/// Signals of the boxes before this one: each is an entry of the estimate's points.
std::size_t first_point_of(const BidRequest& request, const Box& box) {
    std::size_t entries = 0;
    for (std::size_t i = 0; i < box.index && i < request.boxes.size(); ++i) {
        std::set<std::string> signals;
        for (const PointLine& points : request.boxes[i].points) signals.insert(points.signal);
        entries += signals.size();
    }
    return entries;
}

void check_equipment(BoxFacts& facts, const PriceBook& book, const RuleBook& rules) {
    for (const Equipment& asked : facts.box->equipment) {
        if (!asked.part.empty() && !book.find(asked.part)) {
            facts.limits.push_back("part " + asked.part + " is not in the price book");
            continue;
        }
        facts.equipment.push_back(equipment_fact(asked, book, rules.supply.volts.number()));
    }
}

/// Between lines, or between line and neutral: nominal voltages of IEC 60038 are round figures.
bool lies_on_mains(const LoadGroup& group, const Site& site, const SupplyRules& rules) {
    if (group.alternating == direct_current(site)) return false;
    const double to_neutral = site.volts / std::sqrt(3.0);
    const bool neutral = site.phases == 3 && site.neutral;
    const double percent = rules.nominal_percent ? rules.nominal_percent->number() : 0;
    return group.volts == site.volts ||
           (neutral && std::abs(group.volts - to_neutral) <= to_neutral * percent / 100);
}

/// The switched outputs where they are parted, then every other voltage of the equipment.
void add_groups(BoxFacts& facts, const RuleBook& rules) {
    const Box& box = *facts.box;
    for (std::size_t i = 0; i < facts.demand.lines.size(); ++i)
        if (box.choices.separate_output_supply && facts.groups.empty() &&
            facts.demand.lines[i].signal->power == "switched" && facts.demand.lines[i].used > 0)
            facts.groups.push_back({"outputs", rules.supply.volts.number()});
    for (EquipmentFact& fact : facts.equipment) {
        if (!fact.asked->amps || *fact.asked->amps <= 0 || fact.asked->quantity == 0) continue;
        LoadGroup asked{"other_voltage", *fact.asked->volts, fact.asked->current == "ac"};
        const auto known =
            std::find_if(facts.groups.begin(), facts.groups.end(), [&](const LoadGroup& group) {
                return group.word == asked.word && group.volts == asked.volts &&
                       group.alternating == asked.alternating;
            });
        fact.group = static_cast<std::size_t>(known - facts.groups.begin()) + 1;
        if (known != facts.groups.end()) continue;
        asked.on_mains = lies_on_mains(asked, box.site, rules.supply);
        facts.groups.push_back(asked);
    }
}

} // namespace

bool may_choose(const Part& part, const Box& box, const BidRequest& request) {
    const auto excluded = [&](const std::string& key) {
        const auto& keys = box.choices.exclude;
        return std::find(keys.begin(), keys.end(), key) != keys.end();
    };
    if (excluded(part.key)) return false;
    for (const Accessory& accessory : part.accessories)
        if (excluded(accessory.part)) return false;
    if (part.state == "discontinued" || !part.net()) return false;
    const bool other = part.practice == (request.north_america ? "iec" : "north_america");
    return !other;
}

bool holds_safety(const Box& box, const RuleBook& rules) {
    return std::any_of(box.points.begin(), box.points.end(), [&](const PointLine& points) {
        const Signal* signal = rules.find_signal(points.signal);
        return points.count > 0 && signal && signal->work_class == "safety";
    });
}

EquipmentFact equipment_fact(const Equipment& asked, const PriceBook& book, double volts) {
    EquipmentFact fact;
    fact.asked = &asked;
    fact.part = asked.part.empty() ? nullptr : book.find(asked.part);
    const Part empty;
    const Part& part = fact.part ? *fact.part : empty;
    fact.where = place_of(asked, fact.part);
    fact.band = band_of(part);
    fact.width_mm = asked.width_mm.value_or(part.width_mm.value_or(0));
    fact.height_mm = asked.height_mm.value_or(part.height_mm.value_or(0));
    fact.depth_mm = asked.depth_mm.value_or(part.depth_mm.value_or(0));
    fact.amps_24v = asked.amps_24v.value_or(part.own_a.value_or(0));
    const double own_w = part.own_w.value_or(part.own_a.value_or(0) * volts);
    fact.inside_w = fact.where == "outside" ? 0 : asked.watts.value_or(own_w);
    fact.heat_known = asked.watts || !fact.part || part.own_w || part.own_a;
    return fact;
}

EquipmentFact& add_equipment(BoxFacts& facts, const Part& part, int pieces, const PriceBook& book) {
    const auto same = [&](const EquipmentFact& fact) {
        return fact.part == &part && !fact.of_assembly && fact.where == "rail";
    };
    auto known = std::find_if(facts.equipment.begin(), facts.equipment.end(), same);
    auto asked = std::make_shared<Equipment>();
    if (known == facts.equipment.end()) {
        asked->part = part.key;
        asked->quantity = pieces;
        facts.equipment.push_back(equipment_fact(*asked, book, facts.rules->supply.volts.number()));
        known = std::prev(facts.equipment.end());
    } else {
        *asked = *known->asked;
        asked->quantity += pieces;
        known->asked = asked.get();
    }
    facts.added_equipment.push_back(std::move(asked));
    return *known;
}

const Part* interface_part(const PriceBook& book, const BoxFacts& facts, const Interface& row,
                           const PointLine& points) {
    return cheapest_where(book, row.part_kind, facts, [&](const Part& part) {
        const bool serves = part.function == row.function || (part.function.empty() && row.plain);
        return serves && within_rating(part, points.amps) && takes_volts(part, points);
    });
}

double interface_amps(const Part& part, const Interface& row) {
    return part.own_a ? *part.own_a : row.current_ma.number() / 1000;
}

double interface_watts(const Part& part, const Interface& row, double volts) {
    if (part.own_w) return *part.own_w;
    return part.own_a ? *part.own_a * volts : row.heat_w.number();
}

const Part* cheapest(const PriceBook& book, std::string_view kind, const BoxFacts& facts,
                     bool (*fits)(const Part&, double), double need) {
    return cheapest_where(book, kind, facts, [&](const Part& part) { return fits(part, need); });
}

const Part* cheapest_of(const PriceBook& book, std::string_view kind, std::string_view function,
                        const BoxFacts& facts) {
    return cheapest_where(book, kind, facts,
                          [&](const Part& part) { return part.function == function; });
}

BoxFacts box_facts(const BidRequest& request, const Box& box, const PriceBook& book,
                   const RuleBook& rules, const SpareModules& spare_modules,
                   const JobShare& share) {
    BoxFacts facts;
    facts.box = &box;
    facts.request = &request;
    facts.rules = &rules;
    facts.spare_modules = spare_modules;
    facts.share = share;
    facts.first_point = first_point_of(request, box);
    if (box.controlled_by == ControlledBy::none) facts.no_controller = no_controller();
    facts.safety = controls_safety(request, box, rules);
    const auto parts = interface_parts(facts, book, rules);
    facts.demand = demand_of(box, request.spare, rules, input_amps(box, rules, parts),
                             spare_modules.counted, share.spare);
    check_equipment(facts, book, rules);
    add_assemblies(facts, book, rules);
    add_links(facts, book, rules);
    add_surge(facts, book);
    add_groups(facts, rules);
    for (std::size_t i = 0; i < facts.demand.lines.size(); ++i) {
        const DemandLine& line = facts.demand.lines[i];
        facts.planned.push_back(request.spare.wired() ? line.required : line.used);
        facts.wiring.push_back(line_wiring(line, rules, facts.limits));
        check_volts(line, facts.limits);
        add_interface(facts, i, parts[i]);
        facts.wiring[i].direct.channels = facts.planned[i] - facts.wiring[i].via.channels;
    }
    return facts;
}

} // namespace backplate
