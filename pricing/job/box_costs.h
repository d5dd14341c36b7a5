#pragma once

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// Material, labour and share of the price of every kind of box: the price goes by material and own
/// labour, rounded to the currency's digits; the first box takes what the others leave, so that the
/// boxes add up to the job. Needs bill, labour and price.
void share_costs(Estimate& estimate);

/// Basis of the shares; none where the job has one kind of box.
void record_shares(const Estimate& estimate, Recorder& recorder);

/// Basis of the pieces of a led box over all systems, and of how many equal boxes count with their
/// learning curve (`batch`, millionths).
void record_quantity(const BidRequest& request, const Box& box, const RuleBook& rules,
                     std::int64_t batch, Recorder& recorder);

} // namespace backplate
