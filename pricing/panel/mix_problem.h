#pragma once

#include <string>
#include <vector>

#include "pricing/panel/panel_design.h"

namespace backplate {

/// What may lead the first station of a box, with everything that may go with it: a controller of
/// the price book, a head where another box has the controller, or nothing.
struct PlatformCase {
    std::string platform;
    const Part* leader = nullptr;
    const Part* safety = nullptr; ///< safety controller that stands beside it, where it needs one
    MixProblem problem;
    Closers closers;
    std::vector<std::string> limits; ///< why nothing can carry a line, in words
    std::vector<const Part*> beaten; ///< left out of the search, for another one stands in
};

/// One case for every leader that the box may have, in the order of keys; one without places where
/// the box has equipment only. Heads are limited by what the system's controller may lead. `every`:
/// those too that another one stands in for.
std::vector<PlatformCase> platform_cases(const PriceBook& book, const BoxFacts& facts,
                                         const RuleBook& rules, const LabourPlan& plan,
                                         bool every = false);

/// Cost of the work that these counts bring in all boxes, 1e-10 of the currency.
std::int64_t counted_work(const LabourPlan& plan, const BoxCounts& with);

} // namespace backplate
