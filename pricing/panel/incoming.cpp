#include <algorithm>

#include "pricing/panel/candidate.h"
#include "pricing/panel/conductors.h"
#include "pricing/panel/short_circuit.h"

namespace backplate {
namespace {

constexpr const char* earth = "protective conductor";

bool listed(const Part& part, const BoxFacts& facts) {
    const RuleBook& rules = *facts.rules;
    const bool american = facts.request->north_america;
    const bool fuse = part.function.find("fuse") != std::string::npos;
    const auto& breakers =
        american ? rules.breaker_ratings_north_america : rules.breaker_ratings_iec;
    const auto& fuses = american ? rules.fuse_ratings_north_america : rules.fuse_ratings_iec;
    const auto& ratings = fuse ? fuses : breakers;
    return std::any_of(ratings.begin(), ratings.end(),
                       [&](const Rule& row) { return row.number() == *part.rated_a; });
}

bool fits_site(const Part& part, const BoxFacts& facts) {
    const Site& site = facts.box->site;
    const auto own = rated_ka(part, facts.request->north_america, *facts.rules);
    if (site.fault_current_ka && own && *own < *site.fault_current_ka) return false;
    if (!fits_mains(part, site)) return false;
    const bool phases = direct_current(site) || part.phases == site.phases;
    return phases && part.poles.value_or(part.phases) >= poles_needed(site, *facts.rules);
}

/// A supplementary protector is no branch or main device. Source: electrical-facts 1 (UL 1077,
/// from memory).
bool supplementary(const Part& part) {
    return part.function.find("supplementary") != std::string::npos ||
           part.approvals.find("UL 1077") != std::string::npos;
}

bool usable(const Part& part, const BoxFacts& facts) {
    return !supplementary(part) && may_choose(part, *facts.box, *facts.request) && part.rated_a &&
           fits_site(part, facts);
}

const Part* cheapest_switch(const PriceBook& book, const BoxFacts& facts, double amperes) {
    return cheapest_where(book, "main_switch", facts, [&](const Part& part) {
        return usable(part, facts) && *part.rated_a >= amperes;
    });
}

std::int64_t steps_of(const Part* part) { return part ? part->net()->steps() : 0; }

double metres_per_wire(const RuleBook& rules) {
    const auto row = rules.wires.find("length");
    return row == rules.wires.end() ? 0 : row->second.number();
}

/// What hangs on the breaker; nothing where the price book or the tables end.
std::optional<IncomingChoice> around(const Part& breaker, const PriceBook& book,
                                     const BoxFacts& facts, const FixedParts& parts) {
    const RuleBook& rules = *facts.rules;
    IncomingChoice choice;
    choice.breaker = &breaker;
    const bool american = facts.request->north_america;
    const WirePlace place = place_of_feed(facts);
    choice.conductor = conductor_for(rules, american, *breaker.rated_a, true, place);
    if (!choice.conductor) return std::nullopt;
    choice.conductor_a = {ampacity_in(rules, american, *choice.conductor, place)};
    choice.switches = switches_per_feed(rules);
    if (choice.switches > 0) {
        choice.main_switch = cheapest_switch(book, facts, *breaker.rated_a);
        if (!choice.main_switch) return std::nullopt;
    }
    const Conductor& size = *choice.conductor;
    choice.wire = wire_of_size(book, facts, size, parts.wire);
    choice.terminal = terminal_of_size(book, facts, parts.terminal->function, size, parts.terminal);
    choice.earth_terminal = terminal_of_size(book, facts, earth, size, choice.terminal);
    if (!choice.wire || !choice.terminal || !choice.earth_terminal) return std::nullopt;
    return choice;
}

/// Price of what differs between breakers, of one feed.
std::int64_t price_of(const IncomingChoice& choice, const BoxFacts& facts) {
    const std::int64_t metres =
        need_in(static_cast<double>(incoming_wires(facts)) * metres_per_wire(*facts.rules), 1);
    const std::int64_t feeds = facts.box->site.feeds;
    const std::int64_t live = live_conductors(facts.box->site);
    return feeds * (steps_of(choice.breaker) + choice.switches * steps_of(choice.main_switch) +
                    live * steps_of(choice.terminal) + steps_of(choice.earth_terminal)) +
           metres * steps_of(choice.wire);
}

} // namespace

bool serves_as_incoming(const Part& part, const BoxFacts& facts) {
    return usable(part, facts) && listed(part, facts);
}

const Rule* continuous_factor(const BoxFacts& facts) {
    const OptionalRule& factor = facts.rules->continuous_factor_north_america;
    return facts.request->north_america && factor ? &*factor : nullptr;
}

std::int64_t incoming_wires(const BoxFacts& facts) {
    const auto row = facts.rules->wires.find("incoming conductor");
    if (row == facts.rules->wires.end()) return 0;
    return round_to_steps(row->second.value, 0, Rounding::up) * facts.box->site.feeds *
           live_conductors(facts.box->site);
}

const Conductor* supply_conductor(const BoxFacts& facts, double unit_a, int together) {
    return conductor_for(*facts.rules, facts.request->north_america, unit_a, false,
                         place_of_supplies(facts, together));
}

std::optional<double> supply_wire_ampacity(const PanelDesign& design, const SearchFacts& search) {
    if (!design.supply.part) return std::nullopt;
    const BoxFacts& facts = search.facts;
    const int together = design.supply.carrying();
    return ampacity_in(*facts.rules, facts.request->north_america,
                       *supply_conductor(facts, design.supply.unit_a(), together),
                       place_of_supplies(facts, together));
}

std::optional<double> bending_at_terminals(const PanelDesign& design, const SearchFacts& search) {
    if (!design.incoming.conductor) return std::nullopt;
    const BendingSpace* row =
        bending_row(*search.rules, search.facts.request->north_america, *design.incoming.conductor);
    if (!row || row->space_mm.number() <= 0) return std::nullopt;
    return row->space_mm.number();
}

const Part* supply_wire(const PriceBook& book, const BoxFacts& facts, const FixedParts& parts,
                        double unit_a, int together) {
    const Conductor* size = supply_conductor(facts, unit_a, together);
    return size ? wire_of_size(book, facts, *size, parts.wire) : nullptr;
}

std::vector<IncomingChoice> incoming_choices(const PriceBook& book, const BoxFacts& facts,
                                             const FixedParts& parts) {
    std::vector<IncomingChoice> choices;
    for (const Part* part : book.of_kind("incoming")) {
        if (!serves_as_incoming(*part, facts)) continue;
        auto choice = around(*part, book, facts, parts);
        if (!choice) continue;
        choice->price = price_of(*choice, facts);
        choices.push_back(*std::move(choice));
    }
    std::stable_sort(choices.begin(), choices.end(),
                     [](const IncomingChoice& a, const IncomingChoice& b) {
                         if (a.price != b.price) return a.price < b.price;
                         return *a.breaker->rated_a < *b.breaker->rated_a;
                     });
    return choices;
}

Amperes rating_for_peak(Amperes peak, const RuleBook& rules) {
    const auto row = rules.protection.find("inrush_multiple");
    if (row == rules.protection.end() || row->second.number() <= 0) return {};
    return {peak.value / row->second.number()};
}

std::optional<IncomingChoice> choose_incoming(const std::vector<IncomingChoice>& choices,
                                              const BoxFacts& facts, Amperes load, Amperes peak) {
    const Rule* factor = continuous_factor(facts);
    // A milliampere is far below what a load is known to; equal stays equal (12.0 × 1.25 = 15).
    const double need =
        static_cast<double>(need_in(load.value * (factor ? factor->number() : 1), 0.001)) * 0.001 -
        0.0005;
    const double for_peak = rating_for_peak(peak, *facts.rules).value;
    for (const IncomingChoice& choice : choices) {
        if (*choice.breaker->rated_a < std::max(need, for_peak)) continue;
        IncomingChoice chosen = choice;
        chosen.load = load;
        return chosen;
    }
    return std::nullopt;
}

} // namespace backplate
