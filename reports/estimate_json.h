#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// backplate-estimate/1, ending with a newline: money as strings, hours three decimals,
/// percentages one, amperes two, factors three, other physics one; never exponents.
std::string estimate_json(const Estimate& estimate, const RuleBook& rules, const char* version);

} // namespace backplate
