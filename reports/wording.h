#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// The finding's sentence: the template of its row with the parameters in it.
std::string finding_text(const Finding& finding, const RuleBook& rules);
std::string finding_title(const Finding& finding, const RuleBook& rules);
std::string severity_word(Severity severity);
/// "scope", "exclusion" … as the heading of its section in the offer.
std::string section_title(const std::string& section);
/// Cautions of the client's document that no sentence of the offer says already.
std::vector<const Finding*> further_cautions(const Estimate& estimate, const RuleBook& rules);
/// A role, activity or stage as a person reads it: "enclosure_preparation" -> "Enclosure
/// preparation".
std::string plain_words(const std::string& word);

} // namespace backplate
