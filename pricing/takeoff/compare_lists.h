#pragma once

#include <string>
#include <vector>

#include "pricing/takeoff/take_off.h"

namespace backplate {

/// Points of one tag and signal in one box that two revisions of a list do not have in common.
struct PointChange {
    enum class Is { added, removed, changed, moved };
    Is is = Is::added;
    int count = 1;
    TakenPoint before, after; ///< of added points the first is empty, of removed ones the second
};

/// What a revision of a list makes of another: changed ones have another signal (and may have moved
/// too), moved ones the same signal in another box. Points are known by their tag, without one by
/// their text; those with neither are only counted by box and signal. Capitals do not matter.
struct ListChanges {
    std::vector<PointChange> changes; ///< in the order of the new list, removed ones at the end
    PanelCounts before, after;

    int count_of(PointChange::Is is) const;
};

ListChanges compare_lists(const Takeoff& before, const Takeoff& after);

} // namespace backplate
