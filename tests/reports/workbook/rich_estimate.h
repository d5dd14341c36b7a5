#pragma once

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// A made-up estimate that a workbook has to bear: two boxes of which one is built three times,
/// half-cent sums, awkward texts. Amounts follow the price chain in exact arithmetic; physics is
/// plausible and proves nothing.
Estimate rich_estimate();
/// The rules it was made with: policy rows, signals, findings.
RuleBook rich_rules();
/// The same job where nothing builds it: no price, one stop.
Estimate unbuildable_estimate();

} // namespace backplate
