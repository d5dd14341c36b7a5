#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pricing/request/default_values.h"

namespace backplate {

/// A value that the client left open.
struct FilledValue {
    const DefaultRow* row = nullptr;
    std::string pointer;
    std::size_t box = 0; ///< whose it is, 0 for the job
};

/// Fills every default into a request without faults, row by row in the order of `defaults`, what
/// looks at other keys last, and says what it filled in. The word not_stated counts as absent.
std::vector<FilledValue> fill_defaults(Node& request, const RuleBook& rules,
                                       const DefaultValues& defaults);

} // namespace backplate
