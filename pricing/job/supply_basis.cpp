#include <algorithm>

#include "pricing/job/basis_context.h"

namespace backplate {
namespace {

void append(std::string& sum, const std::string& term) {
    if (!term.empty()) sum += (sum.empty() ? "" : " + ") + term;
}

void record_load(const Context& context, const SupplyEntry& entry) {
    Formula formula;
    std::string sum;
    double rest = 0;
    for (const Consumer& consumer : context.consumers) {
        if (consumer.all_on_a == 0 || consumer.group != entry.consumers) continue;
        if (formula.has_room())
            append(sum, formula.product(consumer.factors));
        else
            rest += consumer.all_on_a;
    }
    if (rest > 0) append(sum, number_text(rest));
    const std::string future = formula.use(context.future());
    add(context, entry.path + "/load_all_on_a", entry.all_on.value, "A",
        "(" + sum + ") × (1 + " + future + " ÷ 100)", "supply/load", formula.take(),
        "climate-and-supply 6: every consumer over its planned channels, future load added first");
}

void record_together(const Context& context, const SupplyEntry& entry) {
    Formula formula;
    std::string text = formula.use(entry.load_input(context));
    for (const Consumer& consumer : context.consumers) {
        if (consumer.all_on_a == consumer.together_a || consumer.group != entry.consumers) continue;
        const PointLine& points = *context.search.facts.demand.lines[consumer.point].points;
        const std::string path = context.box + "/points/" +
                                 steps_text(static_cast<std::int64_t>(points.index), 0) +
                                 "/on_together_percent";
        text += " − " + formula.product(consumer.factors);
        text += " × (1 − " + formula.use(from_request(path, points.on_together.text(), "%")) +
                " ÷ 100)";
        text += " × (1 + " + formula.use(context.future()) + " ÷ 100)";
    }
    add(context, entry.path + "/load_a", entry.together.value, "A", text, "supply/load",
        formula.take(), "loads on together");
}

void record_altitude(const Context& context, const SupplyEntry& entry, const SupplyResult& supply) {
    const SupplyRules& rules = context.rules().supply;
    const double altitude = context.search.facts.box->site.altitude_m;
    const std::string at = entry.path + "/derating/altitude";
    if (altitude > rules.altitude_knee_m.number() && rules.altitude_percent_per_km)
        add(context, at, supply.derating.altitude, "", "max(0, 1 − b ÷ 100 × (a − c) ÷ 1000)",
            rules.altitude_percent_per_km->id,
            {from_request(context.box + "/site/altitude_m", number_text(altitude), "m"),
             context.rule(*rules.altitude_percent_per_km), context.rule(rules.altitude_knee_m)},
            "climate-and-supply 5.2");
    else
        add(context, at, supply.derating.altitude, "", "1", rules.altitude_knee_m.id, {},
            "climate-and-supply 5.2: below the knee");
}

/// Only where the space beside the supply is too small.
void record_mounting(const Context& context, const SupplyEntry& entry, const SupplyResult& supply) {
    if (supply.derating.mounting >= 1) return;
    const Part& part = *entry.units->part;
    const Rule& row = *context.rules().supply.tight_factor;
    add(context, entry.path + "/derating/mounting", supply.derating.mounting, "", "a", row.id,
        {part.tight_factor
             ? from_part(part.key + "/tight_factor", number_text(*part.tight_factor), "")
             : context.rule(row)},
        "climate-and-supply 5.2: room/supply_side_mm is below supply/spacing_mm");
}

void record_required(const Context& context, const SupplyEntry& entry) {
    const SupplyResult& supply = context.result.supplies[entry.index];
    const SupplyRules& rules = context.rules().supply;
    if (!supply.air || !supply.required || !supply.derating.temperature) return;
    const double factor = *supply.derating.temperature;
    add(context, entry.path + "/derating/temperature", factor, "",
        "min(1, max(0, 1 − b ÷ 100 × (a − c)))", rules.slope_percent_per_k.id,
        {context.figure("/heat/top_c", supply.air->value, "°C"),
         context.rule(rules.slope_percent_per_k), context.rule(rules.knee_c)},
        "climate-and-supply 5.2, air at the top of the box");
    record_altitude(context, entry, supply);
    record_mounting(context, entry, supply);
    Formula formula;
    const auto use = [&](const std::string& name, double value) {
        return formula.use(context.figure(entry.path + "/" + name, value, ""));
    };
    std::string text =
        formula.use(context.figure(entry.path + "/load_a", supply.load.value, "A")) + " ÷ (";
    text += formula.use(context.rule(rules.utilisation));
    text += " × " + use("derating/temperature", factor);
    text += " × " + use("derating/altitude", supply.derating.altitude);
    if (supply.derating.input < 1) text += " × " + use("derating/input", supply.derating.input);
    if (supply.derating.mounting < 1)
        text += " × " + use("derating/mounting", supply.derating.mounting);
    add(context, entry.path + "/required_a", supply.required->value, "A", text + ")",
        rules.utilisation.id, formula.take(), "climate-and-supply 5.3");
}

void record_side(const Context& context, const std::string& figure, const char* rule,
                 const SideProtection& side) {
    if (!side.part) return;
    add(context, figure, *side.part->rated_a, "A", "a", rule,
        {from_part(side.part->key + "/rated_a", number_text(*side.part->rated_a), "A")},
        "NEC 450.3(B): at most " + number_text(side.limit.amps, 3) + " A, " +
            number_text(side.limit.percent) + " % of " + number_text(side.rated_a, 3) + " A, " +
            (side.limit.round_up ? "or the next rating above" : "the next rating below"));
}

void record_transformer(const Context& context, const SupplyEntry& entry) {
    const SupplyResult& supply = context.result.supplies[entry.index];
    const TransformerRules& rules = *context.rules().transformers;
    const BasisInput load = context.figure(entry.path + "/load_a", supply.load.value, "A");
    Formula formula;
    std::string sealed = formula.use(load);
    sealed += " × " + formula.use(entry.volts);
    const std::string inrush = formula.use(context.rule(rules.inrush_factor));
    add(context, entry.path + "/selection_va", *supply.selection_va, "VA",
        sealed + " × power(1 + " + inrush + " × " + inrush + ", 0.5)", rules.inrush_factor.id,
        formula.take(), "electrical-facts 6 (S51): root of the squares of sealed and inrush VA");
    add(context, entry.path + "/required_a", supply.required->value, "A", "max(a, b ÷ (c × d))",
        rules.inrush_multiple.id,
        {load, context.figure(entry.path + "/selection_va", *supply.selection_va, "VA"),
         context.rule(rules.inrush_multiple), entry.volts},
        "electrical-facts 6 (S51): nameplate from the sealed VA on, inrush within what it gives");
    record_side(context, entry.path + "/primary_a", "transformers/primary_percent",
                entry.group->primary);
    record_side(context, entry.path + "/secondary_a", "transformers/secondary_percent",
                entry.group->secondary);
}

} // namespace

BasisInput SupplyEntry::load_input(const Context& context) const {
    return context.figure(path + "/load_all_on_a", all_on.value, "A");
}

std::vector<SupplyEntry> supply_entries(const Context& context) {
    std::vector<SupplyEntry> entries;
    const PanelDesign& design = context.design;
    const Rule& control = context.rules().supply.volts;
    const auto add_entry = [&](const SupplyChoice& units, const GroupSupply* group) {
        SupplyEntry entry;
        entry.index = entries.size();
        entry.path = "/supplies/" + steps_text(static_cast<std::int64_t>(entry.index), 0);
        entry.units = &units;
        entry.group = group;
        entry.consumers = group ? group->group + 1 : 0;
        entry.together = group ? group->together : design.together;
        entry.all_on = group ? group->all_on : design.all_on;
        entry.volts = units.part->output_v ? from_part(units.part->key + "/output_v",
                                                       number_text(*units.part->output_v), "V")
                                           : context.rule(control);
        entries.push_back(std::move(entry));
    };
    if (design.supply.part) add_entry(design.supply, nullptr);
    for (const GroupSupply& group : design.further) add_entry(group.units, &group);
    return entries;
}

std::vector<Consumer> consumers_before(const GroupSupply& group, const SearchFacts& search) {
    std::vector<std::pair<const Part*, int>> parts;
    if (group.protection) parts.emplace_back(group.protection, group.channels);
    if (group.units.decoupler) parts.emplace_back(group.units.decoupler, group.units.decouplers);
    auto consumers = chosen_consumers(search.facts, Arrangement{}, parts, *search.rules);
    for (Consumer& consumer : consumers) consumer.group = group.group + 1;
    return consumers;
}

std::string loss_term(const Context& context, const SupplyEntry& entry, Formula& formula) {
    const SupplyChoice& supply = *entry.units;
    const std::string key = supply.part->key;
    if (entry.group && entry.group->transforms()) {
        if (supply.part->own_w)
            return formula.use(from_part(key + "/own_w", number_text(*supply.part->own_w), "W"));
        return formula.use(
                   from_part(key + "/rated_va", number_text(*supply.part->rated_va), "VA")) +
               " × " + formula.use(context.rule(context.rules().transformers->loss_percent)) +
               " ÷ 100";
    }
    const std::string volts = formula.use(entry.volts);
    const std::string load = formula.use(entry.load_input(context));
    const std::string rated =
        formula.use(from_part(key + "/rated_a", number_text(*supply.part->rated_a), "A"));
    const auto loss = [&](int units) {
        const std::string all =
            units > 1 ? "(" + steps_text(units, 0) + " × " + rated + ")" : rated;
        const std::string share = "(" + load + " ÷ " + all + ")";
        return volts + " × " + all + " × (" + formula.use(context.rule(supply.loss->l0)) + " + " +
               formula.use(context.rule(supply.loss->l1)) + " × " + share + " + " +
               formula.use(context.rule(supply.loss->l2)) + " × " + share + " × " + share + ")";
    };
    if (!supply.redundant()) return loss(supply.quantity);
    return "max(" + loss(supply.quantity) + ", " + loss(supply.carrying()) + ")";
}

void record_loads(const Context& context) {
    for (const SupplyEntry& entry : supply_entries(context)) {
        record_load(context, entry);
        record_together(context, entry);
    }
}

void record_supplies(const Context& context) {
    for (const SupplyEntry& entry : supply_entries(context))
        if (entry.group && entry.group->transforms())
            record_transformer(context, entry);
        else
            record_required(context, entry);
}

} // namespace backplate
