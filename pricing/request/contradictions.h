#pragma once

#include <vector>

#include "pricing/request/bid_request.h"
#include "pricing/request/words.h"

namespace backplate {

/// What a request says twice in two ways or cannot mean, over values that may each be right. Adds
/// to `faults`; values of the wrong type are passed over, they are faults of their own.
void check_contradictions(const Node& sent, const Words& words, std::vector<RequestFault>& faults);

} // namespace backplate
