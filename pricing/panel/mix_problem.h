#pragma once

#include <string>
#include <vector>

#include "pricing/panel/panel_design.h"

namespace backplate {

/// A controller of the price book with everything that may go with it.
struct PlatformCase {
    std::string platform;
    const Part* controller = nullptr;
    MixProblem problem;
    Closers closers;
    std::vector<std::string> limits; ///< why nothing can carry a line, in words
};

/// One case for every controller that the box may have, in the order of keys.
std::vector<PlatformCase> platform_cases(const PriceBook& book, const BoxFacts& facts,
                                         const RuleBook& rules, const LabourPlan& plan);

} // namespace backplate
