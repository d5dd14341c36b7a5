#include "pricing/panel/supply.h"

#include <algorithm>
#include <limits>

namespace backplate {
namespace {

bool rated_for(const Part& part, double amps) { return part.rated_a.value_or(0) >= amps; }

/// Loss of units that share the load evenly.
Watts shared_loss(const SupplyChoice& choice, int units, Amperes load, const SupplyRules& rules) {
    const double rated = *choice.part->rated_a * units;
    const double x = load.value / rated;
    const LossRow& row = *choice.loss;
    return {rated * rules.volts.number() *
            (row.l0.number() + row.l1.number() * x + row.l2.number() * x * x)};
}

} // namespace

std::vector<SupplyChoice> supply_choices(const PriceBook& book, const BoxFacts& facts,
                                         const RuleBook& rules) {
    std::vector<SupplyChoice> choices;
    const OptionalRule& row = rules.supply.most_in_parallel;
    const int most = row ? static_cast<int>(row->number()) : 1;
    for (const Part* part : book.of_kind("supply")) {
        if (!may_choose(*part, *facts.box, *facts.request) || !part->rated_a) continue;
        const auto loss = rules.losses.find(part->efficiency_row);
        if (loss == rules.losses.end() || !fits_mains(*part, facts.box->site)) continue;
        if (facts.box->choices.redundant_supply) {
            const Part* decoupler = cheapest(book, "redundancy", facts, rated_for, *part->rated_a);
            if (decoupler) choices.push_back({part, 2, &loss->second, decoupler});
            continue;
        }
        const int feeds = facts.box->site.feeds; // every feed ends on a supply
        for (int n = feeds; n <= std::max(most, feeds); ++n)
            choices.push_back({part, n, &loss->second, nullptr});
    }
    return choices;
}

SupplyChoice no_supply() {
    SupplyChoice choice;
    choice.quantity = 0;
    return choice;
}

std::int64_t price_of(const SupplyChoice& choice) {
    if (!choice.part) return 0;
    const std::int64_t units = choice.part->net()->steps() * choice.quantity;
    return choice.decoupler ? units + choice.decoupler->net()->steps() : units;
}

std::vector<const Part*> backup_parts(const PriceBook& book, const BoxFacts& facts) {
    std::vector<const Part*> parts;
    if (facts.box->choices.backup_minutes <= 0) return parts;
    for (const Part* part : book.of_kind("backup"))
        if (may_choose(*part, *facts.box, *facts.request) && part->rated_a && part->capacity_wh)
            parts.push_back(part);
    return parts;
}

std::string no_supply_text(const Box& box) {
    const std::string volts = number_text(box.site.volts) + " V " +
                              (direct_current(box.site) ? "DC " : "") + "in the price book";
    if (box.choices.redundant_supply)
        return "no supply with a redundancy part of its rating for " + volts;
    return "no supply for " + volts;
}

Watts supply_loss(const SupplyChoice& choice, Amperes load, const SupplyRules& rules) {
    if (!choice.part) return {};
    const Watts shared = shared_loss(choice, choice.quantity, load, rules);
    if (!choice.one_plus_one()) return shared;
    return std::max(shared, shared_loss(choice, 1, load, rules));
}

double temperature_factor(const SupplyChoice& choice, Celsius air, const SupplyRules& rules) {
    const double end = choice.part->max_c.value_or(std::numeric_limits<double>::infinity());
    if (air.value >= end) return 0;
    const double slope = rules.slope_percent_per_k.number() / 100;
    return std::clamp(1 - slope * (air.value - rules.knee_c.number()), 0.0, 1.0);
}

double altitude_factor(double altitude_m, const SupplyRules& rules) {
    const double above = altitude_m - rules.altitude_knee_m.number();
    if (above <= 0) return 1;
    if (!rules.altitude_percent_per_km) return 0;
    return std::max(0.0, 1 - rules.altitude_percent_per_km->number() / 100 * above / 1000);
}

std::optional<Celsius> highest_air(const SupplyChoice& choice, Amperes load, double altitude_m,
                                   const SupplyRules& rules) {
    const double slope = rules.slope_percent_per_k.number() / 100;
    if (!choice.part) return Celsius{rules.knee_c.number() + 1 / slope};
    const double base =
        choice.rated_a() * altitude_factor(altitude_m, rules) * rules.utilisation.number();
    if (base <= 0) return std::nullopt;
    const double need = load.value / base;
    if (need > 1) return std::nullopt;
    double highest = rules.knee_c.number() + (1 - need) / slope;
    if (choice.part->max_c) highest = std::min(highest, *choice.part->max_c - 0.01);
    return Celsius{highest};
}

SupplyResult supply_result(const SupplyChoice& choice, Amperes load, Amperes all_on,
                           std::optional<Celsius> air, double altitude_m,
                           const SupplyRules& rules) {
    SupplyResult result;
    result.load = load;
    result.load_all_on = all_on;
    result.rated = {choice.rated_a()};
    result.part = choice.part->key;
    result.quantity = choice.quantity;
    result.arrangement = choice.one_plus_one()  ? "one_plus_one"
                         : choice.quantity == 1 ? "single"
                                                : "parallel";
    if (choice.decoupler) result.parts.push_back({choice.decoupler->key, 1});
    result.air = air;
    if (air) result.derating.temperature = temperature_factor(choice, *air, rules);
    result.derating.altitude = altitude_factor(altitude_m, rules);
    result.derating.utilisation = rules.utilisation.number();
    if (air)
        result.required =
            Amperes{load.value / (*result.derating.temperature * result.derating.altitude *
                                  result.derating.utilisation)};
    return result;
}

} // namespace backplate
