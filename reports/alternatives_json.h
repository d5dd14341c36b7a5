#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/job/alternatives.h"
#include "pricing/job/price_steps.h"

namespace backplate {

/// backplate-alternatives/1 with the price steps of the base, ending with a newline.
std::string alternatives_json(const Alternatives& alternatives, const FoundSteps& steps,
                              const RuleBook& rules);

} // namespace backplate
