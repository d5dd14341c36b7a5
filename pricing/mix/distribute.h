#pragma once

#include <vector>

#include "pricing/mix/front.h"

namespace backplate {

/// One way to use the channels of a module (or of a controller's own groups).
struct Spread {
    std::vector<int> carried;          ///< by line
    std::vector<int> extra;            ///< by line
    std::vector<int> conditional = {}; ///< of `carried`, by line, in groups with a condition
};

/// Every useful way to give the part's channels to the lines with `open` channels left: no channel
/// stays idle where a line that it may carry is open. `greedy`: only the first way, filling the
/// lines in order. All channels of a group that is selectable as a whole serve one signal. Channels
/// beyond go to the dearest line the group may carry (decision 6).
std::vector<Spread> spreads(const Part& part, const MixProblem& problem,
                            const std::vector<int>& open, bool greedy);

} // namespace backplate
