#pragma once

#include <cstdint>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// What rules add to the articles and the hours of one kind of box. Percentages in ten-thousandths
/// of a percent; they hold for every panel alike, so the search for the cheapest knows them.
struct ChargePlan {
    std::int64_t sundries = 0, freight = 0;
    std::int64_t of_goods = 0, of_labour = 0; ///< sums of the charges in percent
    std::vector<const Charge*> charges;       ///< those whose condition holds and that are not 0
};

/// The sundries count in full.
ChargePlan charge_plan(const BidRequest& request, const Box& box, const RuleBook& rules);

/// Percent that the sundries add to the goods of a box, less the `shares` of small parts that are
/// lines of their own; never below 0.
Percent sundries_left(const RuleBook& rules, const std::vector<const Rule*>& shares);

/// Direct cost of all boxes from the prices of their articles and their labour, ten-thousandths:
/// sundries, freight and charges in percent on top. Amounts per box or job are the same for every
/// panel and left out.
std::int64_t with_charges(std::int64_t articles, std::int64_t labour, const ChargePlan& plan);

/// Adds the lines of the charges to the bill, after the goods of every kind of box: each a lump sum
/// per box, its amount for all boxes of the kind divided by them and rounded once to `digits`.
/// Rests of packs and small orders where the price policy says so, then what prices rise by after
/// their validity, then the rows of the table charges. A charge rests on the goods and the labour
/// of its kind of box; the first box bears the labour of the job and what is paid once for the job.
void add_charges(std::vector<BillLine>& lines, const std::vector<LabourLine>& labour,
                 const BidRequest& request, const RuleBook& rules, int digits);

/// Amounts of the charges again, from the lines above and `labour` as they stand.
void reprice_charges(std::vector<BillLine>& lines, const std::vector<LabourLine>& labour,
                     const BidRequest& request, const RuleBook& rules, int digits);

/// Basis of every charge.
void record_charges(const std::vector<BillLine>& lines, const std::vector<LabourLine>& labour,
                    const BidRequest& request, const RuleBook& rules, Recorder& recorder);

/// Goods of all lines given: every line that no charge added.
Money goods_of(const std::vector<BillLine>& lines);

/// Months begun between two dates, a month being the twelfth part of 365 days; 0 where `to` is not
/// later.
int months_between(Date from, Date to);

/// What goods cost more after `months` of a rise of `percent_per_month`, compound.
/// Source: trade-practice 4.4 (40,000 at 0.5 % over two months: 401).
double escalation(double amount, double percent_per_month, int months);

} // namespace backplate
