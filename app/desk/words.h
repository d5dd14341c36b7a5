#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule_book.h"

namespace backplate {

/// The words that the rules allow for a key; patterns are left out. Of an assembly's name, of
/// circumstances and of signals the keys of their tables.
std::vector<std::string> allowed_words(const RuleBook& rules, const std::string& key);

/// The allowed word in its own spelling where only the case differs; else the text as typed.
std::string known_word(const RuleBook& rules, const std::string& key, const std::string& typed);

} // namespace backplate
