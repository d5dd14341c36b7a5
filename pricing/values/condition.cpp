#include "pricing/values/condition.h"

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

std::optional<ConditionTerm> parse_term(std::string_view text) {
    const auto end = text.find_first_of("=!>");
    if (end == std::string_view::npos || end == 0) return std::nullopt;
    ConditionTerm term;
    term.key = text.substr(0, end);
    std::string_view rest = text.substr(end);
    if (rest.starts_with("!=")) {
        term.compare = ConditionTerm::Compare::unequal;
        rest.remove_prefix(1);
    } else if (rest.front() == '>') {
        term.compare = ConditionTerm::Compare::above;
    } else if (rest.front() == '!') {
        return std::nullopt;
    }
    term.value = rest.substr(1);
    if (term.value.empty() || term.value.find_first_of(" =!>") != std::string::npos)
        return std::nullopt;
    if (term.compare == ConditionTerm::Compare::above && !parse_decimal(term.value))
        return std::nullopt;
    return term;
}

} // namespace

bool ConditionTerm::holds(std::string_view fact) const {
    if (compare == Compare::equal) return fact == value;
    if (compare == Compare::unequal) return fact != value;
    const auto have = parse_decimal(fact);
    const auto limit = parse_decimal(value);
    return have && limit && have->number() > limit->number();
}

std::optional<std::vector<ConditionTerm>> parse_condition(std::string_view text) {
    constexpr std::string_view joint = " and ";
    std::vector<ConditionTerm> terms;
    if (text == "always") return terms;
    while (true) {
        const auto end = text.find(joint);
        auto term = parse_term(text.substr(0, end));
        if (!term) return std::nullopt;
        terms.push_back(*std::move(term));
        if (end == std::string_view::npos) return terms;
        text.remove_prefix(end + joint.size());
    }
}

} // namespace backplate
