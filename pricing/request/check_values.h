#pragma once

#include <vector>

#include "pricing/request/bid_request.h"
#include "pricing/request/default_values.h"
#include "pricing/request/request_keys.h"
#include "pricing/request/words.h"

namespace backplate {

/// Every value of a request by itself: known key, type, range, decimals, words, required keys, and
/// whether the product acts on it yet. Adds what it finds to `faults`, in the order of the tree.
void check_values(const Node& sent, const RequestKey& keys, const DefaultValues& defaults,
                  const Words& words, std::vector<RequestFault>& faults);

/// A pointer one step further; `~` and `/` in a name are written as RFC 6901 says.
std::string step_down(const std::string& pointer, std::string_view name);
std::string step_down(const std::string& pointer, std::size_t index);

/// A node for a message, cut where it is long.
std::string found_text(const Node& node);

} // namespace backplate
