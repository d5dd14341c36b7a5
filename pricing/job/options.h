#pragma once

#include "pricing/price_job.h"

namespace backplate {

/// Prices every option of the job by a whole run of its own beside the base, and adds its basis, a
/// sentence of the offer and, where nothing builds it, a finding. The base stays as it is.
/// Source: trade-practice 1.3 (options are differences, never inside the price).
void add_option_prices(Estimate& base, const PriceBook& book, const RuleBook& rules, Work& work);

} // namespace backplate
