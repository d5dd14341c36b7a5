#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// The finding's sentence: the template of its row with the parameters in it.
std::string finding_text(const Finding& finding, const RuleBook& rules);
std::string finding_title(const Finding& finding, const RuleBook& rules);
std::string severity_word(Severity severity);
/// A role, activity or stage as a person reads it: "enclosure_preparation" -> "Enclosure
/// preparation".
std::string plain_words(const std::string& word);

} // namespace backplate
