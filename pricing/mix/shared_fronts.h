#pragma once

#include "pricing/mix/front.h"

namespace backplate {

/// Fronts of problems that differ in their controllers alone, and of one guide with several limits,
/// made once: controllers of a platform ask for the same modules again and again.
class SharedFronts {
public:
    /// As mix_front. Problems that were asked for have to stay where they are.
    MixFront front(const MixProblem& problem, const MixGuide& guide, Work& work);

private:
    struct Known {
        const MixProblem* problem = nullptr;
        MixGuide guide;
        MixFront front;
    };
    std::vector<Known> known_;
};

} // namespace backplate
