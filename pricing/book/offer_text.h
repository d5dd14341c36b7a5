#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/values/condition.h"

namespace backplate {

/// A sentence of the offer: a row of the table `texts`.
struct OfferTextRow {
    std::string id;                      ///< table/row
    std::string section;                 ///< scope, option, exclusion, assumption, caution, terms
    std::string subject;                 ///< what it is about; at most one text of a subject prints
    std::vector<ConditionTerm> terms;    ///< all must hold; none: always
    std::string text;                    ///< with {values}
    std::vector<std::string> instead_of; ///< findings whose caution it says already
};

/// A piece of a sentence: plain text, or the name of a value.
struct TextPiece {
    std::string text;
    bool is_name = false;
};

/// "Valid {days} days" in its pieces; a brace without its partner is plain text.
std::vector<TextPiece> text_pieces(std::string_view text);

/// A fact of a job or box that a condition of the table `texts` may look at. `words`: what it can
/// be, blanks between, "@KEY" standing for the words of that key in the table `words`; empty: a
/// number. Besides these, scope.KEY of a request and circumstance.WORD (yes or no).
struct OfferFact {
    std::string_view key, words;
};

/// A value that a sentence may name; so may the rows of the table `offer_figures`.
struct OfferValue {
    std::string_view name, meaning;
};

std::span<const OfferFact> offer_facts();
std::span<const OfferValue> offer_values();

} // namespace backplate
