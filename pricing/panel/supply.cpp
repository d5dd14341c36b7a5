#include "pricing/panel/supply.h"

#include <algorithm>
#include <limits>

namespace backplate {
namespace {

bool rated_for(const Part& part, double amps) { return part.rated_a.value_or(0) >= amps; }

constexpr const char* class_2 = "class_2";

bool holds_class_2(const Part& part) {
    return (";" + part.approvals + ";").find(";class_2;") != std::string::npos;
}

/// Loss of units that share the load evenly.
Watts shared_loss(const SupplyChoice& choice, int units, Amperes load, const SupplyRules& rules) {
    const double rated = *choice.part->rated_a * units;
    const double x = load.value / rated;
    const LossRow& row = *choice.loss;
    return {rated * output_volts(*choice.part, rules) *
            (row.l0.number() + row.l1.number() * x + row.l2.number() * x * x)};
}

/// One more unit than carries the load, as many as the rules allow. A decoupling parts as many
/// units as it has inputs, but no more than carry the load ever give at once.
void add_redundant(std::vector<SupplyChoice>& choices, const SupplyChoice& single,
                   const PriceBook& book, const BoxFacts& facts, const SupplyRules& rules) {
    const auto number = [](const OptionalRule& row, int without) {
        return row ? static_cast<int>(row->number()) : without;
    };
    const int inputs = number(rules.decoupling_inputs, 2);
    for (int n = 1; n <= number(rules.most_redundant, 1); ++n) {
        const double together = single.unit_a() * std::min(n, inputs);
        SupplyChoice choice = single;
        choice.quantity = n + 1;
        choice.decoupler = cheapest(book, "redundancy", facts, rated_for, together);
        choice.decouplers = (n + inputs) / inputs;
        if (choice.decoupler) choices.push_back(choice);
    }
}

const char* arrangement_of(const SupplyChoice& choice) {
    if (choice.redundant()) return choice.carrying() == 1 ? "one_plus_one" : "n_plus_one";
    return choice.quantity == 1 ? "single" : "parallel";
}

} // namespace

double input_factor(const Part& part, const Site& site, const SupplyRules& rules) {
    if (!rules.input_knee_v || !rules.input_percent_per_v || direct_current(site)) return 1;
    const double knee = rules.input_knee_v->number();
    const auto volts = volts_at(part, site);
    const bool wide = part.input_min_v && *part.input_min_v < knee && part.input_max_v &&
                      *part.input_max_v >= knee;
    if (!wide || !volts || *volts >= knee) return 1;
    return std::max(0.0, 1 - rules.input_percent_per_v->number() / 100 * (knee - *volts));
}

bool asks_class_2(const Site& site) {
    return std::find(site.approvals.begin(), site.approvals.end(), class_2) != site.approvals.end();
}

double output_volts(const Part& part, const SupplyRules& rules) {
    return part.output_v.value_or(rules.volts.number());
}

double mounting_factor(const Part& part, const RuleBook& rules) {
    const SupplyRules& supply = rules.supply;
    const OptionalRule& side = rules.room.supply.side_mm; // absent: no rule says how close
    if (!supply.spacing_mm || !supply.tight_factor || !side) return 1;
    if (side->number() >= supply.spacing_mm->number()) return 1;
    return part.tight_factor.value_or(supply.tight_factor->number());
}

namespace {

/// What a supply must give, and on how many feeds.
struct Asked {
    double volts;
    bool redundant;
    int feeds; ///< each ends on a unit
};

std::vector<SupplyChoice> choices_for(const Asked& asked, const PriceBook& book,
                                      const BoxFacts& facts, const RuleBook& rules) {
    std::vector<SupplyChoice> choices;
    const OptionalRule& row = rules.supply.most_in_parallel;
    const bool class_2_asked = asks_class_2(facts.box->site);
    const int most = row && !class_2_asked ? static_cast<int>(row->number()) : 1;
    for (const Part* part : book.of_kind("supply")) {
        if (!may_choose(*part, *facts.box, *facts.request) || !part->rated_a) continue;
        if (output_volts(*part, rules.supply) != asked.volts) continue;
        const bool several = asked.redundant || asked.feeds > 1;
        if (class_2_asked && (several || !holds_class_2(*part))) continue;
        const auto loss = rules.losses.find(part->efficiency_row);
        if (loss == rules.losses.end() || !fits_mains(*part, facts.box->site)) continue;
        if (asked.redundant) {
            add_redundant(choices, {part, 1, &loss->second}, book, facts, rules.supply);
            continue;
        }
        for (int n = asked.feeds; n <= std::max(most, asked.feeds); ++n)
            choices.push_back({part, n, &loss->second});
    }
    for (SupplyChoice& choice : choices) {
        choice.input_factor = input_factor(*choice.part, facts.box->site, rules.supply);
        choice.mounting_factor = mounting_factor(*choice.part, rules);
    }
    return choices;
}

} // namespace

std::vector<SupplyChoice> supply_choices(const PriceBook& book, const BoxFacts& facts,
                                         const RuleBook& rules) {
    const Box& box = *facts.box;
    return choices_for({rules.supply.volts.number(), box.choices.redundant_supply, box.site.feeds},
                       book, facts, rules);
}

std::vector<SupplyChoice> supply_choices_at(double volts, const PriceBook& book,
                                            const BoxFacts& facts, const RuleBook& rules) {
    return choices_for({volts, false, 1}, book, facts, rules);
}

SupplyChoice no_supply() {
    SupplyChoice choice;
    choice.quantity = 0;
    return choice;
}

double inrush_of(const SupplyChoice& choice, int feeds) {
    const int units = (choice.quantity + feeds - 1) / feeds;
    return choice.part ? choice.part->inrush_a.value_or(0) * units : 0;
}

std::int64_t price_of(const SupplyChoice& choice) {
    if (!choice.part) return 0;
    const std::int64_t units = choice.part->net()->steps() * choice.quantity;
    if (!choice.decoupler) return units;
    return units + choice.decoupler->net()->steps() * choice.decouplers;
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
    if (asks_class_2(box.site)) return "no supply marked as class 2 for " + volts;
    if (box.choices.redundant_supply)
        return "no supply with a redundancy part of its rating for " + volts;
    return "no supply for " + volts;
}

Watts supply_loss(const SupplyChoice& choice, Amperes load, const SupplyRules& rules) {
    if (!choice.part) return {};
    const Watts shared = shared_loss(choice, choice.quantity, load, rules);
    if (!choice.redundant()) return shared;
    return std::max(shared, shared_loss(choice, choice.carrying(), load, rules));
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
    const double base = choice.rated_a() * choice.input_factor * choice.mounting_factor *
                        altitude_factor(altitude_m, rules) * rules.utilisation.number();
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
    result.arrangement = arrangement_of(choice);
    if (choice.decoupler) result.parts.push_back({choice.decoupler->key, choice.decouplers});
    result.air = air;
    if (air) result.derating.temperature = temperature_factor(choice, *air, rules);
    result.derating.altitude = altitude_factor(altitude_m, rules);
    result.derating.input = choice.input_factor;
    result.derating.mounting = choice.mounting_factor;
    result.volts = output_volts(*choice.part, rules);
    result.derating.utilisation = rules.utilisation.number();
    if (air)
        result.required =
            Amperes{load.value / (*result.derating.temperature * result.derating.altitude *
                                  result.derating.input * result.derating.mounting *
                                  result.derating.utilisation)};
    return result;
}

} // namespace backplate
