#pragma once

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// Ratios that the rules name, beside their usual range (a smell test, never a basis of price).
std::vector<RatioResult> ratios_of(const Estimate& estimate, const RuleBook& rules);

/// Their basis; totals over all boxes stand in the formula as numbers.
void record_ratios(const Estimate& estimate, const RuleBook& rules, Recorder& recorder);

/// Weeks: the longest lead time, the shop's hours at its pace, the test. Fills the critical part.
/// Source: trade-practice 5, row 21.
void fill_delivery(Estimate& estimate, const RuleBook& rules);

} // namespace backplate
