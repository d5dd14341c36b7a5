#include "pricing/job/basis_context.h"
#include "pricing/panel/conductors.h"
#include "pricing/panel/mains.h"

namespace backplate {
namespace {

/// What a part draws of the most loaded line against W ÷ V of the mains.
std::string line_term(const Context& context, const Part& part) {
    const double share =
        amps_per_watt(part, context.search.facts.box->site) * context.search.facts.box->site.volts;
    if (part.phases == 3) return " ÷ power(3, 0.5)";
    return share > 1 ? " × power(3, 0.5)" : "";
}

/// Mains power of cooler or heater, which never run together.
std::string climate_term(const Context& context, Formula& formula) {
    std::vector<std::string> terms;
    for (const auto& [part, pieces] : climate_parts(context.design))
        terms.push_back(
            steps_text(pieces, 0) + " × " +
            formula.use(from_part(part->key + "/own_w", number_text(*part->own_w), "W")) +
            line_term(context, *part));
    if (terms.empty()) return {};
    if (terms.size() == 1) return " + " + terms.front();
    return " + max(" + terms.front() + ", " + terms.back() + ")";
}

/// W of a supply or VA of a transformer at the mains.
std::string entry_term(const Context& context, const SupplyEntry& entry, Formula& formula) {
    const std::string load =
        formula.use(entry.volts) + " × " + formula.use(entry.load_input(context));
    return "(" + load + " + " + loss_term(context, entry, formula) + ")" +
           line_term(context, *entry.units->part);
}

/// Currents of what lies on the mains as they come.
std::string direct_term(const Context& context, Formula& formula) {
    std::string sum;
    for (const Consumer& consumer : context.consumers)
        if (consumer.group > 0 && context.search.facts.groups[consumer.group - 1].on_mains)
            sum += (sum.empty() ? "" : " + ") + formula.product(consumer.factors);
    if (sum.empty()) return sum;
    return " + (" + sum + ") × (1 + " + formula.use(context.future()) + " ÷ 100)";
}

void record_incoming_load(const Context& context) {
    const Site& site = context.search.facts.box->site;
    Formula formula;
    std::string watts, volt_amperes;
    for (const SupplyEntry& entry : supply_entries(context)) {
        std::string& sum = entry.group && entry.group->transforms() ? volt_amperes : watts;
        sum += (sum.empty() ? "" : " + ") + entry_term(context, entry, formula);
    }
    if (watts.empty()) watts = "0";
    watts += climate_term(context, formula);
    const std::string mains =
        formula.use(from_request(context.box + "/site/supply/volts", number_text(site.volts), "V"));
    const Rule& factor = context.rules().supply.power_factor;
    const std::string divisor = direct_current(site)
                                    ? mains
                                    : "(" + mains + " × " + formula.use(context.rule(factor)) + ")";
    std::string text = "(" + watts + ") ÷ " + divisor;
    if (!volt_amperes.empty()) text += " + (" + volt_amperes + ") ÷ " + mains;
    text += direct_term(context, formula);
    add(context, "/incoming/load_a", context.result.incoming->load.value, "A", text, factor.id,
        formula.take(), "electrical-facts 1; each feed may carry everything");
}

/// Ampacity of a conductor where it lies: its column, at most that of its insulation times what
/// warm air and the conductors beside it leave, each factor by itself.
void record_ampacity(const Context& context, const char* figure, const Conductor& conductor,
                     const WirePlace& place) {
    const bool american = context.search.facts.request->north_america;
    const RuleBook& rules = context.rules();
    const WireFactors factors = wire_factors(rules, american, conductor, place);
    Formula formula;
    std::string text = formula.use(context.rule(conductor.ampacity));
    std::string source = conductor.edition + ", column " + conductor.column +
                         ": the thinnest that carries the device";
    if (factors.product() < 1) {
        const Conductor& insulated = in_insulation(rules, american, conductor);
        std::string left = formula.use(context.rule(insulated.ampacity));
        if (factors.air && factors.air->factor.number() < 1) {
            left += " × " + formula.use(context.rule(factors.air->factor));
            source += ", in air as warm as the row says";
        }
        if (factors.grouping && factors.grouping->factor.number() < 1) {
            left += " × " + formula.use(context.rule(factors.grouping->factor));
            source += ", " + steps_text(place.together, 0) +
                      (american ? " loaded wires" : " circuits") + " together";
        }
        text = "min(" + text + ", " + left + ")";
    }
    add(context, figure, ampacity_in(rules, american, conductor, place), "A", text,
        conductor.ampacity.id, formula.take(), source);
}

/// Room at the terminals of the feeds, where the practice asks for it.
void record_bending(const Context& context, const Conductor& conductor) {
    if (!bending_at_terminals(context.design, context.search)) return;
    const BendingSpace* row =
        bending_row(context.rules(), context.search.facts.request->north_america, conductor);
    Formula formula;
    const std::string space = formula.use(context.rule(row->space_mm));
    add(context, "/incoming/bending_mm", row->space_mm.number(), "mm", space, row->space_mm.id,
        formula.take(), "electrical-facts 4: before and behind the terminals of the feeds");
}

void record_conductors(const Context& context) {
    const PanelDesign& design = context.design;
    const BoxFacts& facts = context.search.facts;
    record_ampacity(context, "/incoming/conductor_a", *design.incoming.conductor,
                    place_of_feed(facts));
    record_bending(context, *design.incoming.conductor);
    if (!design.supply.part) return;
    const int together = design.supply.carrying();
    record_ampacity(context, "/incoming/supply_wire_a",
                    *supply_conductor(facts, design.supply.unit_a(), together),
                    place_of_supplies(facts, together));
}

} // namespace

std::string Formula::use(const BasisInput& input) {
    if (input.path.empty()) return input.value;
    for (std::size_t i = 0; i < inputs_.size(); ++i)
        if (inputs_[i].path == input.path && inputs_[i].from == input.from) return input_letter(i);
    inputs_.push_back(input);
    return input_letter(inputs_.size() - 1);
}

std::string Formula::product(const std::vector<BasisInput>& factors) {
    std::string text;
    for (const BasisInput& factor : factors) text += (text.empty() ? "" : " × ") + use(factor);
    return text;
}

void add(const Context& context, std::string figure, double value, const char* unit,
         std::string formula, std::string rule, std::vector<BasisInput> inputs,
         std::string source) {
    context.recorder.add({context.box + figure, number_text(value), unit, std::move(formula),
                          std::move(rule), std::move(inputs), std::move(source)});
}

/// Breaker and conductor: which were taken stands in the source, their figures are data.
void record_incoming(const Context& context) {
    record_incoming_load(context);
    const IncomingChoice& incoming = context.design.incoming;
    const Part& breaker = *incoming.breaker;
    const Rule* factor = continuous_factor(context.search.facts);
    const double peak =
        rating_for_peak(peak_at_mains(context.design, context.search.facts.box->site.feeds),
                        context.rules())
            .value;
    std::string least =
        factor ? "load × " + factor->text() + " (" + factor->id + ")" : std::string("load");
    if (peak > incoming.load.value)
        least += " and from " + number_text(peak, 1) +
                 " A for the supplies' peak (protection/inrush_multiple)";
    add(context, "/incoming/device_a", *breaker.rated_a, "A", "a", "breaker_ratings/cheapest",
        {from_part(breaker.key + "/rated_a", number_text(*breaker.rated_a), "A")},
        "electrical-facts 1: of the standard ratings from " + least +
            " on, what costs least with its switch, wire and terminals");
    record_conductors(context);
}

/// As many channels as the rule asks for and the load fills.
void record_protection(const Context& context) {
    const PanelDesign& design = context.design;
    if (!design.protection) return;
    Formula formula;
    const auto row = context.rules().protection.find("distribution_channels");
    const std::string least =
        row == context.rules().protection.end() ? "0" : formula.use(context.rule(row->second));
    int apart = 0; // at supplies of their own
    for (const GroupSupply& group : design.further) apart += group.channels;
    const std::string own =
        apart > 0 ? "ceil(" + least + ") − " + steps_text(apart, 0) : "ceil(" + least + ")";
    const double load = design.protected_a;
    const std::string rated = formula.use(from_part(design.protection->key + "/rated_a",
                                                    number_text(*design.protection->rated_a), "A"));
    add(context, "/protection/channels", design.protection_channels, "channels",
        "max(" + own + ", ceil(" + number_text(load) + " ÷ " + rated + "))",
        "protection/distribution_channels", formula.take(),
        "all consumers on, without the channels' own current and without what stands before them; "
        "of the ratings that carry the largest consumer the cheapest in all");
}

} // namespace backplate
