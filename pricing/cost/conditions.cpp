#include "pricing/cost/conditions.h"

#include <algorithm>
#include <array>
#include <vector>

namespace backplate {
namespace {

/// A condition in its terms, between " and ".
std::vector<std::string_view> terms_of(std::string_view text) {
    constexpr std::string_view joint = " and ";
    std::vector<std::string_view> terms;
    while (true) {
        const auto end = text.find(joint);
        terms.push_back(text.substr(0, end));
        if (end == std::string_view::npos) return terms;
        text.remove_prefix(end + joint.size());
    }
}

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
    if (key == "approvals")
        return steps_text(static_cast<std::int64_t>(box.site.approvals.size()), 0);
    return {};
}

bool term_holds(std::string_view term, const BidRequest& request, const Box& box,
                const RuleBook& rules) {
    if (term == "always") return true;
    const auto found = [&](std::size_t end) {
        return fact(term.substr(0, end), request, box, rules);
    };
    if (const auto at = term.find("!="); at != std::string_view::npos)
        return found(at) != term.substr(at + 2);
    if (const auto at = term.find('='); at != std::string_view::npos)
        return found(at) == term.substr(at + 1);
    const auto at = term.find('>');
    if (at == std::string_view::npos) return false;
    const auto have = parse_decimal(found(at));
    const auto limit = parse_decimal(term.substr(at + 1));
    return have && limit && have->number() > limit->number();
}

constexpr auto plain_facts = std::array<std::string_view, 9>{
    "practice", "approvals",     "spare.kind",        "quantity",          "backup_minutes",
    "cooling",  "delivery.duty", "delivery.carriage", "delivery.insurance"};

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

bool known_term(const RuleBook& rules, std::string_view term) {
    const std::size_t end = std::min(term.find_first_of("=!>"), term.size());
    if (!known_fact(rules, term.substr(0, end))) return false;
    std::string_view rest = term.substr(end);
    if (rest.starts_with("!=")) rest.remove_prefix(1);
    return rest.size() > 1 && rest.front() != '!' && rest.find(' ') == std::string_view::npos;
}

} // namespace

bool known_condition(const RuleBook& rules, const std::string& text) {
    if (text == "always") return true;
    const auto terms = terms_of(text);
    return std::all_of(terms.begin(), terms.end(),
                       [&](std::string_view term) { return known_term(rules, term); });
}

bool condition_holds(const std::string& condition, const BidRequest& request, const Box& box,
                     const RuleBook& rules) {
    if (condition.empty()) return true;
    const auto terms = terms_of(condition);
    return std::all_of(terms.begin(), terms.end(), [&](std::string_view term) {
        return term_holds(term, request, box, rules);
    });
}

} // namespace backplate
