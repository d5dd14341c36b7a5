#pragma once

#include <string>

#include "pricing/book/rule_book.h"

namespace backplate {

/// A blank request with every key: the required ones stand, the others are comments with their
/// default and what they take. Removing the first `// ` of a line lets its value stand; a line
/// with two says what else may be written there. Reads and checks without faults as it is.
std::string example_request(const RuleBook& rules, bool north_america);

} // namespace backplate
