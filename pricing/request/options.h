#pragma once

#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// A copy of the request as sent, in which every box bears its name and no option stands: what a
/// change is applied to.
Node changeable(const BidRequest& request);

/// Reads the options: each change applied to the base and checked as a request of its own. What
/// is wrong with one is a fault at its place in /commercial/options.
void add_options(BidRequest& request, const RuleBook& rules, std::vector<RequestFault>& faults);

} // namespace backplate
