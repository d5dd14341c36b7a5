#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/job/alternatives.h"

namespace backplate {

/// backplate-alternatives/1, ending with a newline.
std::string alternatives_json(const Alternatives& alternatives, const RuleBook& rules);

} // namespace backplate
