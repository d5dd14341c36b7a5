#pragma once

#include <span>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// Direct cost by cost class, for policies that treat the classes differently.
struct ClassCosts {
    Money material; ///< bill without bought work, and freight
    Money labour;
    Money subcontract; ///< bill lines of that role
    Money sum() const { return material + labour + subcontract; }
};

/// From material and labour to the price:
///   freight on goods (charges by rule carry none); direct = material + freight + labour;
///   contingency on direct; overhead on both (order compound) or on direct (additive), as a percent
///   of all, of each class, or per labour hour; margin of price (or markup on cost), one or by
///   class; concession on cost + margin; rounded up to the policy's step; tax on the price where it
///   is stated. Every line rounded once, half away from zero.
/// `base` = the price of the likely values without contingency; p50 and p80 from the range of the
/// lines, or 0 where it is not wanted. Source: trade-practice 4.2 (PR1), 4.5.
PriceResult roll_up(const std::vector<BillLine>& bill, const std::vector<LabourLine>& labour,
                    const BidRequest& request, const RuleBook& rules, bool with_range = true);

void record_price(const PriceResult& price, const std::vector<BillLine>& bill,
                  const std::vector<LabourLine>& labour, const BidRequest& request,
                  const RuleBook& rules, Recorder& recorder);

/// The most that one unit of direct cost with its contingency adds to the price: overhead and
/// margin (or markup), the highest of the classes where they differ; overhead per hour at the
/// lowest rate.
double most_price_factor(const BidRequest& request, const RuleBook& rules);

/// Tax of the lines of an offer: rounded on each, or once on their sum. Source: trade-practice 4.3.
Money tax_of(std::span<const Money> lines, Percent percent, bool each_line, int digits);

// Parts of the chain, for the basis and for tests.

ClassCosts class_costs(const PriceResult& price, const std::vector<BillLine>& bill);

/// Percent of overhead on the classes, the general one where a class has no row.
struct ClassPercents {
    Percent material, labour, subcontract;
};
ClassPercents overhead_percents(const PricePolicy& policy);
/// Margins of price by class: those of the rows, else `one`.
ClassPercents margin_percents(const PricePolicy& policy, Percent one);

/// Does the policy's margin by class hold: no margin and no markup was sent.
bool margin_by_class(const BidRequest& request, const PricePolicy& policy);

} // namespace backplate
