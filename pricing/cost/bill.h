#pragma once

#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/panel_design.h"

namespace backplate {

/// The printed bill of one box: every line rounded once to the currency's digits, a net unit price
/// once to four decimals; the sundries last. A line without a price keeps nothing, not 0.
/// Source: trade-practice 4.1.
std::vector<BillLine> bill_lines(const std::vector<BillItem>& items, const Box& box,
                                 const RuleBook& rules, int digits);

/// Line amounts and sundries again, from quantities and net unit prices as they stand: the cost
/// step over a frozen design.
void reprice(std::vector<BillLine>& lines, const Box& box, const RuleBook& rules, int digits);

/// Basis of unit prices, packs, sundries.
void record_bill(const std::vector<BillLine>& lines, const std::vector<BillItem>& items,
                 const RuleBook& rules, Recorder& recorder);

Money material_of(const std::vector<BillLine>& lines);

} // namespace backplate
