#include "pricing/panel/conductors.h"

#include <algorithm>

namespace backplate {
namespace {

bool in_column(const RuleBook& rules, const Conductor& row, bool north_america, double amperes,
               bool incoming) {
    const ConductorColumns& columns = rules.conductor_columns;
    if (row.practice != (north_america ? "north_america" : "iec")) return false;
    if (!north_america) return columns.iec.empty() || row.column == columns.iec;
    const bool control =
        !columns.north_america_control.empty() && row.column == columns.north_america_control;
    if (control) return !incoming;
    const auto& limit = columns.north_america_limit;
    const bool above = limit && amperes > limit->number();
    const std::string& column = above ? columns.north_america_above : columns.north_america;
    return column.empty() || row.column == column;
}

double least_section(const RuleBook& rules, bool north_america) {
    const std::string& size =
        north_america ? rules.smallest_incoming_north_america : rules.smallest_incoming_iec;
    for (const Conductor& row : rules.conductors)
        if (row.practice == (north_america ? "north_america" : "iec") && row.size == size)
            return row.order.number();
    return 0;
}

bool carries(const Conductor& row, double amperes) {
    if (row.largest_device && row.largest_device->number() < amperes) return false;
    return row.ampacity.number() >= amperes;
}

bool for_power(const Part& wire) { return wire.function.empty() || wire.function == "power"; }

bool thick_enough(const Part& part, const Conductor& size) {
    return part.section_mm2 && *part.section_mm2 >= size.order.number();
}

bool states_sizes(const PriceBook& book, std::string_view kind) {
    const auto parts = book.of_kind(kind);
    return std::any_of(parts.begin(), parts.end(),
                       [](const Part* part) { return part->section_mm2.has_value(); });
}

const Part* cheaper(const Part* a, const Part* b) { return !a || *b->net() < *a->net() ? b : a; }

const Rule* insulation_of(const RuleBook& rules, bool north_america) {
    const ConductorColumns& columns = rules.conductor_columns;
    const auto& row = north_america ? columns.insulation_north_america : columns.insulation_iec;
    return row ? &*row : nullptr;
}

int count_of(const OptionalRule& row, int without) {
    return row ? static_cast<int>(round_to_steps(row->value, 0, Rounding::up)) : without;
}

/// Live conductors of a feed that count as loaded.
int loaded_wires(const Site& site, const WiresTogether& rules) {
    const bool neutral = site.phases == 3 && site.neutral && !direct_current(site);
    return live_conductors(site) - (neutral ? 1 - count_of(rules.neutral, 0) : 0);
}

/// Of the practice and column of the row; 0 for more than the table holds.
std::optional<GroupingFactor> grouping_factor(const RuleBook& rules, const Conductor& row,
                                              int together) {
    std::optional<GroupingFactor> found;
    for (const GroupingFactor& each : rules.grouping_factors) {
        const auto& columns = each.columns;
        const bool of_column = columns.empty() || std::find(columns.begin(), columns.end(),
                                                            row.column) != columns.end();
        if (each.practice != row.practice || !of_column) continue;
        found = each;
        if (together <= each.up_to) return found;
    }
    if (found) found->factor.value = {0, 0};
    return found;
}

} // namespace

const Conductor& in_insulation(const RuleBook& rules, bool north_america, const Conductor& row) {
    const Rule* insulation = insulation_of(rules, north_america);
    if (!north_america || !insulation) return row;
    for (const Conductor& other : rules.conductors)
        if (other.practice == row.practice && other.size == row.size &&
            other.column == insulation->text() + " °C")
            return other;
    return row;
}

std::optional<AmbientFactor> ambient_factor(const RuleBook& rules, bool north_america,
                                            double air_c) {
    const Rule* insulation = insulation_of(rules, north_america);
    if (!insulation) return std::nullopt;
    std::optional<AmbientFactor> found;
    for (const AmbientFactor& row : rules.ambient_factors) {
        if (row.practice != (north_america ? "north_america" : "iec")) continue;
        if (row.insulation_c != insulation->number()) continue;
        found = row;
        if (air_c <= row.up_to_c) return found;
    }
    if (found) found->factor.value = {0, 0}; // hotter than the table
    return found;
}

double WireFactors::product() const {
    const double of_air = air ? std::min(1.0, air->factor.number()) : 1;
    return of_air * (grouping ? grouping->factor.number() : 1);
}

WirePlace place_of_feed(const BoxFacts& facts) {
    const WiresTogether& rules = facts.rules->wires_together;
    const Site& site = facts.box->site;
    const bool american = facts.request->north_america;
    const int feeds = std::min(site.feeds, count_of(rules.feeds, 1));
    const int beside =
        count_of(american ? rules.beside_feed_north_america : rules.beside_feed_iec, 0);
    return {site.ambient_high_c, feeds * (american ? loaded_wires(site, rules) : 1) + beside};
}

WirePlace place_of_supplies(const BoxFacts& facts, int carrying) {
    const WiresTogether& rules = facts.rules->wires_together;
    const bool american = facts.request->north_america;
    const int units = std::min(carrying, count_of(rules.supplies, 1));
    const int beside =
        count_of(american ? rules.beside_supply_north_america : rules.beside_supply_iec, 0);
    const OptionalRule& air = american ? rules.inside_air_north_america : rules.inside_air_iec;
    return {air ? std::optional(air->number()) : std::nullopt,
            units * (american ? 2 : 1) + beside}; // 24 V and 0 V
}

WireFactors wire_factors(const RuleBook& rules, bool north_america, const Conductor& row,
                         const WirePlace& place) {
    WireFactors factors;
    if (place.air_c) factors.air = ambient_factor(rules, north_america, *place.air_c);
    factors.grouping = grouping_factor(rules, row, place.together);
    return factors;
}

double ampacity_in(const RuleBook& rules, bool north_america, const Conductor& row,
                   const WirePlace& place) {
    const double column = row.ampacity.number();
    const double left = wire_factors(rules, north_america, row, place).product();
    if (left >= 1) return column;
    return std::min(column, in_insulation(rules, north_america, row).ampacity.number() * left);
}

const Conductor* conductor_for(const RuleBook& rules, bool north_america, double amperes,
                               bool incoming, const WirePlace& place) {
    const double least = incoming ? least_section(rules, north_america) : 0;
    const Conductor* best = nullptr;
    for (const Conductor& row : rules.conductors) {
        if (!in_column(rules, row, north_america, amperes, incoming)) continue;
        if (row.order.number() < least || !carries(row, amperes)) continue;
        if (ampacity_in(rules, north_america, row, place) < amperes) continue;
        if (!best || row.order.number() < best->order.number()) best = &row;
    }
    return best;
}

const BendingSpace* bending_row(const RuleBook& rules, bool north_america,
                                const Conductor& conductor) {
    for (const BendingSpace& row : rules.bending_spaces)
        if (row.practice == (north_america ? "north_america" : "iec") &&
            conductor.order.number() <= row.up_to_mm2)
            return &row;
    return nullptr;
}

int switches_per_feed(const RuleBook& rules) {
    const auto row = rules.protection.find("main_switch");
    return row == rules.protection.end()
               ? 0
               : static_cast<int>(round_to_steps(row->second.value, 0, Rounding::up));
}

const Part* wire_of_size(const PriceBook& book, const BoxFacts& facts, const Conductor& size,
                         const Part* plain) {
    if (!states_sizes(book, "wire") || (plain && thick_enough(*plain, size))) return plain;
    const Part* best = nullptr;
    for (const Part* part : book.of_kind("wire"))
        if (for_power(*part) && thick_enough(*part, size) &&
            may_choose(*part, *facts.box, *facts.request))
            best = cheaper(best, part);
    return best;
}

const Part* terminal_of_size(const PriceBook& book, const BoxFacts& facts,
                             const std::string& function, const Conductor& size,
                             const Part* other) {
    const auto serves = [&](const Part* part) {
        return part->function == function && part->width_mm.value_or(0) > 0 &&
               may_choose(*part, *facts.box, *facts.request);
    };
    const Part* best = nullptr;
    bool any = false, sizes = false;
    for (const Part* part : book.of_kind("terminal")) {
        if (!serves(part)) continue;
        any = true;
        sizes = sizes || part->section_mm2;
        if (!part->section_mm2 || thick_enough(*part, size)) best = cheaper(best, part);
    }
    if (!any) return other;
    return best || sizes ? best : other;
}

} // namespace backplate
