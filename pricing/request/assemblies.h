#pragma once

#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// Names that no row of the assembly table bears are faults that name the nearest.
void check_assemblies(const Node& sent, const RuleBook& rules, std::vector<RequestFault>& faults);

/// Adds the points of the assemblies to the points of their boxes, a line per row, with the current
/// and voltage that the signal table gives.
void add_assembly_points(BidRequest& request, const RuleBook& rules);

} // namespace backplate
