#pragma once

#include <vector>

#include "pricing/mix/front.h"

namespace backplate {

/// What the channels of one group of a module serve: by mix line carried and fitted beyond.
struct GroupChannels {
    std::vector<int> carried, extra;
    int idle =
        0; ///< channels that no line may use: of another signal, or beyond the common current
};

/// The counts of a use over the groups of its part, group by group, so that each group keeps its
/// signals, its common current and, where it serves one signal only, that one. A group takes all it
/// can of the first lines. Mains voltage and extra-low voltage (`mains`, by mix line) get no group
/// in common unless the counts leave no other way. The sums over the groups are those of the use.
std::vector<GroupChannels> group_channels(const ModuleUse& use, const std::vector<MixLine>& lines,
                                          const std::vector<bool>& mains);

} // namespace backplate
