#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace backplate {

/// One term of a condition: a fact of the job compared with a word or a number.
struct ConditionTerm {
    enum class Compare { equal, unequal, above };
    std::string key;
    Compare compare = Compare::equal;
    std::string value;

    /// Does the term hold where the fact is `fact`; `above` holds only between two numbers.
    bool holds(std::string_view fact) const;
};

/// The terms of "key=value", "key!=value", "key>number", joined by " and "; none for "always".
/// Nothing where the text has another form.
std::optional<std::vector<ConditionTerm>> parse_condition(std::string_view text);

/// Do all terms hold; `fact` gives the text of a key.
template <class Fact> bool all_hold(const std::vector<ConditionTerm>& terms, const Fact& fact) {
    for (const ConditionTerm& term : terms)
        if (!term.holds(fact(term.key))) return false;
    return true;
}

} // namespace backplate
