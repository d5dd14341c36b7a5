#include "pricing/cost/conditions.h"

#include <algorithm>
#include <array>

#include "pricing/values/condition.h"

namespace backplate {
namespace {

std::string scope_word(std::string_view key, const ScopeOfSupply& scope) {
    if (key == "drawings") return scope.drawings;
    if (key == "software") return scope.software;
    if (key == "works_test") return scope.works_test;
    if (key == "commissioning") return scope.commissioning;
    if (key == "packing") return scope.packing;
    if (key == "transport") return scope.transport;
    if (key == "documents") return scope.documents;
    if (key == "languages") return steps_text(scope.languages, 0);
    if (key == "witness_days") return number_text(scope.witness_days);
    if (key == "site_days") return number_text(scope.site_days);
    return {};
}

std::string scope_fact(std::string_view key, const ScopeOfSupply& scope) {
    const std::string word = scope_word(key, scope);
    if (word != "not_stated") return word;
    return key == "commissioning" || key == "transport" ? "excluded" : "included";
}

std::string spare_kind(SpareKind kind) {
    if (kind == SpareKind::installed) return "installed";
    return kind == SpareKind::slot ? "slot" : "wired";
}

std::string delivery_fact(std::string_view duty, const BidRequest& request, const RuleBook& rules) {
    const DeliveryTerm* term = rules.find_term(request.commercial.delivery_term);
    if (!term) return "buyer";
    const bool seller = duty == "carriage"    ? term->carriage
                        : duty == "insurance" ? term->insurance
                                              : term->duty;
    return seller ? "seller" : "buyer";
}

constexpr std::string_view scope_prefix = "scope.", circumstance_prefix = "circumstance.";
constexpr std::string_view delivery_prefix = "delivery.";

std::string fact(std::string_view key, const BidRequest& request, const Box& box,
                 const RuleBook& rules) {
    if (key.starts_with(scope_prefix))
        return scope_fact(key.substr(scope_prefix.size()), request.scope);
    if (key.starts_with(circumstance_prefix)) {
        const auto& words = request.circumstances;
        const auto word = key.substr(circumstance_prefix.size());
        return std::find(words.begin(), words.end(), word) == words.end() ? "no" : "yes";
    }
    if (key.starts_with(delivery_prefix))
        return delivery_fact(key.substr(delivery_prefix.size()), request, rules);
    if (key == "practice") return request.north_america ? "north_america" : "iec";
    if (key == "spare.kind") return spare_kind(request.spare.kind);
    if (key == "quantity") return steps_text(box.quantity, 0);
    if (key == "backup_minutes") return number_text(box.choices.backup_minutes);
    if (key == "cooling") return box.choices.cooling;
    if (key == "place") return box.site.place;
    if (key == "approvals")
        return steps_text(static_cast<std::int64_t>(box.site.approvals.size()), 0);
    return {};
}

constexpr auto plain_facts = std::array<std::string_view, 10>{
    "practice", "approvals", "spare.kind",    "quantity",          "backup_minutes",
    "cooling",  "place",     "delivery.duty", "delivery.carriage", "delivery.insurance"};

bool known_fact(const RuleBook& rules, std::string_view key) {
    if (std::find(plain_facts.begin(), plain_facts.end(), key) != plain_facts.end()) return true;
    if (key.starts_with(circumstance_prefix))
        return std::any_of(rules.words.begin(), rules.words.end(), [&](const WordRow& row) {
            return row.key == "circumstances" && row.word == key.substr(circumstance_prefix.size());
        });
    return key.starts_with(scope_prefix) &&
           std::any_of(rules.defaults.begin(), rules.defaults.end(),
                       [&](const DefaultRow& row) { return row.key == key; });
}

} // namespace

bool known_condition(const RuleBook& rules, const std::string& text) {
    const auto terms = parse_condition(text);
    return terms && std::all_of(terms->begin(), terms->end(), [&](const ConditionTerm& term) {
               return known_fact(rules, term.key);
           });
}

bool condition_holds(const std::string& condition, const BidRequest& request, const Box& box,
                     const RuleBook& rules) {
    if (condition.empty()) return true;
    const auto terms = parse_condition(condition);
    return terms &&
           all_hold(*terms, [&](const std::string& key) { return fact(key, request, box, rules); });
}

} // namespace backplate
