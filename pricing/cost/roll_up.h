#pragma once

#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// From material and labour to the price:
///   direct = material + freight + labour; contingency on direct; overhead on both (compound);
///   margin of price (or markup on cost); concession on cost + margin; rounded up to the policy's
///   step; tax on the price where it is stated. Every line rounded once, half away from zero.
/// `base` = the price of the likely values without contingency; p50 and p80 from the range of the
/// lines. Source: trade-practice 4.2 (PR1), 4.5.
PriceResult roll_up(const std::vector<BillLine>& bill, const std::vector<LabourLine>& labour,
                    const BidRequest& request, const RuleBook& rules);

void record_price(const PriceResult& price, const BidRequest& request, const RuleBook& rules,
                  Recorder& recorder);

/// Cost to price without rounding up: overhead and margin as in roll_up.
double price_factor(const BidRequest& request, const RuleBook& rules);

} // namespace backplate
