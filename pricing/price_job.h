#pragma once

#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"
#include "pricing/request/bid_request.h"
#include "pricing/values/work.h"

namespace backplate {

/// START HERE. From a checked request to an estimate:
///
///   request → systems (choose_boxes) → of every box: demand → module mix (front per controller) →
///   whole panels judged → winners run once more with their basis → bill, hours, cost, price of the
///   job → findings
///
/// Same input, same output. Throws Stopped when the stop was asked; any doubt is a finding, and a
/// request that nothing builds gives `buildable = false` with the limits that bind.
Estimate price_job(const BidRequest& request, const PriceBook& book, const RuleBook& rules,
                   Work& work);

/// The same without what takes further runs: no options, no search for the limits that cannot be
/// met together. For runs that are compared with another one.
Estimate price_once(const BidRequest& request, const PriceBook& book, const RuleBook& rules,
                    Work& work);

} // namespace backplate
