#pragma once

#include "pricing/job/estimate.h"
#include "pricing/price_job.h"

namespace backplate {

/// For every system that nothing builds (a controller's box and the boxes it leads, or a box of its
/// own): the smallest set of limits of the request that cannot be met together, as the finding
/// LIMITS_TOGETHER with the fields in its parameters. Each answer is a whole search of that system
/// under the limits left. Nothing where the estimate is built or the rules have no row `most_runs`
/// in the table `conflicts`.
void add_conflicts(Estimate& estimate, const PriceBook& book, const RuleBook& rules, Work& work);

} // namespace backplate
