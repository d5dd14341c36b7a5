#pragma once

#include <string>
#include <string_view>

#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// Is `text` a condition that can be judged: "always", or terms key=value, key!=value, key>number
/// joined by " and ". Keys: scope.* of the request's keys, practice, approvals (how many),
/// spare.kind, quantity, backup_minutes, cooling, place, delivery.carriage, delivery.insurance,
/// delivery.duty (seller or buyer), circumstance.WORD (yes or no).
bool known_condition(const RuleBook& rules, const std::string& text);

/// Does the condition hold for one box of the request. not_stated counts as the default; an empty
/// condition holds.
bool condition_holds(const std::string& condition, const BidRequest& request, const Box& box,
                     const RuleBook& rules);

} // namespace backplate
