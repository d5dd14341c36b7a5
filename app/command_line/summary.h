#pragma once

#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// The estimate on one screen: points, modules, supply, heat, enclosure, hours, price, the gravest
/// findings, assumptions.
std::string estimate_summary(const Estimate& estimate, const RuleBook& rules);

} // namespace backplate
