#include "pricing/panel/box_facts.h"

#include <algorithm>

namespace backplate {
namespace {

bool within_rating(const Part& part, double amps) { return !part.rated_a || *part.rated_a >= amps; }

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

const Rule* row_of(const std::map<std::string, Rule>& table, const std::string& key) {
    const auto found = table.find(key);
    return found == table.end() ? nullptr : &found->second;
}

LineWiring wiring_of(const DemandLine& line, const RuleBook& rules,
                     std::vector<std::string>& limits) {
    LineWiring wiring;
    const PointLine& points = *line.points;
    const std::string direct = points.signal + " " + points.wiring;
    wiring.terminals = row_of(rules.terminals, direct);
    wiring.wires = row_of(rules.wires, direct);
    if (!wiring.terminals || !wiring.wires)
        limits.push_back("no rule row for terminals or wires of " + direct);
    if (line.interface) {
        const std::string via = points.signal + " " + points.via;
        wiring.via_terminals = row_of(rules.terminals, via);
        wiring.via_wires = row_of(rules.wires, via);
        if (!wiring.via_terminals || !wiring.via_wires)
            limits.push_back("no rule row for terminals or wires of " + via);
    }
    return wiring;
}

void add_interface(BoxFacts& facts, std::size_t index, const PriceBook& book) {
    const DemandLine& line = facts.demand.lines[index];
    const Part* part = cheapest(book, "interface", facts, within_rating, line.points->amps);
    if (!part) {
        facts.limits.push_back("no interface (" + line.points->via + ") for " +
                               line.points->signal + " of " + number_text(line.points->amps, 2) +
                               " A in the price book");
        return;
    }
    const bool for_spare = facts.request->spare.kind == SpareKind::wired;
    const int pieces = for_spare ? line.required : line.used;
    facts.interfaces.push_back({index, part, pieces});
    facts.wiring[index].via = pieces;
}

double coil_amps(const BoxFacts& facts, const PriceBook& book) {
    const Part* part = cheapest(book, "interface", facts, within_rating, 0);
    return part ? part->own_a.value_or(0) : 0;
}

/// A voltage that no channel of the signal takes; behind an interface its contact decides.
void check_volts(const DemandLine& line, std::vector<std::string>& limits) {
    const Signal& signal = *line.signal;
    if (line.interface || !line.points->volts) return;
    const double volts = *line.points->volts;
    const bool low = signal.volts_low && volts < signal.volts_low->number();
    const bool high = signal.volts_high && volts > signal.volts_high->number();
    if (low || high)
        limits.push_back(
            "no module for " + signal.key + " at " + number_text(volts) + " V (channels take " +
            (signal.volts_low ? signal.volts_low->text() : std::string("0")) + " to " +
            (signal.volts_high ? signal.volts_high->text() : std::string("any")) + " V)");
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

} // namespace

bool fits_mains(const Part& part, const Site& site) {
    if (part.input_min_v && site.volts < *part.input_min_v) return false;
    if (part.input_max_v && site.volts > *part.input_max_v) return false;
    return part.phases <= site.phases;
}

bool may_choose(const Part& part, const Box& box, const BidRequest& request) {
    const auto& excluded = box.choices.exclude;
    if (std::find(excluded.begin(), excluded.end(), part.key) != excluded.end()) return false;
    if (part.state == "discontinued" || !part.net()) return false;
    const bool other = part.practice == (request.north_america ? "iec" : "north_america");
    return !other;
}

const Part* cheapest(const PriceBook& book, std::string_view kind, const BoxFacts& facts,
                     bool (*fits)(const Part&, double), double need) {
    const Part* best = nullptr;
    for (const Part* part : book.of_kind(kind)) {
        if (!may_choose(*part, *facts.box, *facts.request) || !fits(*part, need)) continue;
        if (!best || *part->net() < *best->net()) best = part;
    }
    return best;
}

BoxFacts box_facts(const BidRequest& request, const Box& box, const PriceBook& book,
                   const RuleBook& rules) {
    BoxFacts facts;
    facts.box = &box;
    facts.request = &request;
    facts.demand = demand_of(box, request.spare, rules, coil_amps(facts, book));
    check_equipment(facts, book, rules);
    for (std::size_t i = 0; i < facts.demand.lines.size(); ++i) {
        const DemandLine& line = facts.demand.lines[i];
        facts.planned.push_back(request.spare.wired() ? line.required : line.used);
        facts.wiring.push_back(wiring_of(line, rules, facts.limits));
        check_volts(line, facts.limits);
        if (line.interface)
            add_interface(facts, i, book);
        else if (!line.points->via.empty() && line.points->via != "direct")
            facts.limits.push_back("no rule row for an interface (" + line.points->via + ") of " +
                                   line.points->signal);
        facts.wiring[i].direct = facts.planned[i] - facts.wiring[i].via;
    }
    return facts;
}

} // namespace backplate
