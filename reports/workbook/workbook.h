#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/job/price_steps.h"

namespace backplate {

/// The internal workbook (.xlsx): costs, margin and rules inside, every total a formula whose
/// stored result is the engine's value. The further points of `steps`, if any, stand on the sheet
/// of the points. Equal estimates give equal bytes, whatever the locale. Written beside `path`,
/// which it replaces when complete. Throws OutsideFault.
void write_workbook(const Estimate& estimate, const RuleBook& rules, const std::string& path,
                    const FoundSteps& steps = {});

/// The client's edition (.xlsx): price, scope, terms, channels, options; no cost, norm, margin,
/// rule or internal note in any part of the file. `draft` marks every page. Needs estimate.price.
/// Written as above.
void write_client_workbook(const Estimate& estimate, const RuleBook& rules, const std::string& path,
                           bool draft);

} // namespace backplate
