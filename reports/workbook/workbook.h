#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// The internal workbook (.xlsx): costs, margin and rules inside, every total a formula whose
/// stored result is the engine's value. Equal estimates give equal bytes, whatever the locale.
/// Written beside `path`, which it replaces when complete. Throws OutsideFault.
void write_workbook(const Estimate& estimate, const RuleBook& rules, const std::string& path);

} // namespace backplate
