#include "pricing/panel/short_circuit.h"

#include <algorithm>

namespace backplate {
namespace {

/// The row of the kind and function, else of the kind; null where the part is not judged.
const ShortCircuitRow* row_of(const Part& part, bool north_america, const RuleBook& rules) {
    const std::string kind = (north_america ? "north_america " : "iec ") + part.kind;
    auto found = rules.short_circuit.find(kind + " " + part.function);
    if (found == rules.short_circuit.end()) found = rules.short_circuit.find(kind);
    return found == rules.short_circuit.end() ? nullptr : &found->second;
}

/// Parts of the bill that may lie in the power circuit, each once; of the terminals only those that
/// take the incoming conductor.
std::vector<const Part*> power_parts(const PanelDesign& design) {
    std::vector<const Part*> parts;
    const auto add = [&](const Part* part) {
        if (part && std::find(parts.begin(), parts.end(), part) == parts.end())
            parts.push_back(part);
    };
    for (const BillItem& item : design.bill)
        if (item.part && item.part->kind != "terminal") add(item.part);
    add(design.incoming.terminal);
    return parts;
}

/// Protection that no fault current of the mains reaches; that of a transformer's primary lies
/// before it.
bool behind_supply(const Part& part, const PanelDesign& design) {
    return part.kind == "protection" &&
           std::none_of(design.further.begin(), design.further.end(),
                        [&](const GroupSupply& group) { return group.primary.part == &part; });
}

/// The highest rating that a documented combination with a part of the bill gives.
std::optional<double> combined_ka(const Part& part, const std::vector<const Part*>& parts) {
    std::optional<double> best;
    for (const Combination& each : part.combinations)
        if (std::any_of(parts.begin(), parts.end(),
                        [&](const Part* other) { return other->key == each.part; }))
            best = std::max(best.value_or(each.ka), each.ka);
    return best;
}

} // namespace

std::optional<double> rated_ka(const Part& part, bool north_america, const RuleBook& rules) {
    if (part.rated_ka) return part.rated_ka;
    const ShortCircuitRow* row = row_of(part, north_america, rules);
    if (!row || !row->stands_in) return std::nullopt;
    return row->stands_in->number();
}

ShortCircuitResult short_circuit_of(const PanelDesign& design, const SearchFacts& search) {
    const bool north_america = search.facts.request->north_america;
    const RuleBook& rules = *search.rules;
    const auto parts = power_parts(design);
    ShortCircuitResult result;
    for (const Part* part : parts) {
        const ShortCircuitRow* row = row_of(*part, north_america, rules);
        const bool judged = row ? row->judged : part->rated_ka.has_value();
        if (!judged || behind_supply(*part, design)) continue;
        auto own = rated_ka(*part, north_america, rules);
        const auto combined = combined_ka(*part, parts);
        const bool raised = combined && combined > own;
        if (raised) own = combined;
        if (!own) return {std::nullopt, part->key, "not_determined"};
        if (result.stated_ka && *result.stated_ka <= *own) continue;
        result = {own, part->key,
                  raised           ? "combination"
                  : part->rated_ka ? "weakest_part"
                                   : "default_value"};
    }
    const auto& asked = search.facts.box->site.fault_current_ka;
    const bool met = asked && result.stated_ka && *result.stated_ka >= *asked;
    if (met && result.basis == "weakest_part") result.basis = "stated_current";
    if (!result.stated_ka) result.basis = "not_determined";
    return result;
}

} // namespace backplate
