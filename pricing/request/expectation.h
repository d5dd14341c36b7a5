#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule_book.h"

namespace backplate {

/// What a key takes, in words: "a whole number from 1 to 730 days", "one of wired, slot". `words`
/// as Words::of gives them.
std::string expectation(const DefaultRow& row, const std::vector<std::string>& words);

} // namespace backplate
