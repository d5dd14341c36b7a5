#pragma once

#include <string>
#include <vector>

#include "pricing/mix/front.h"

namespace backplate {

/// A channel of a module with what it serves. Numbers count from 1, in the order of the groups.
struct AssignedChannel {
    int number = 0, group = 0;
    const PointLine* points = nullptr; ///< the row of points it belongs to; null: idle
    int entry = -1; ///< of the points of the row; -1: spare, or fitted beyond the requirement
};

/// The channels of every use, in the order given. A row of points gets as many channels as it
/// requires, each point one of them; what a use fits beyond counts to the first row of its line.
/// Points of one device stand on one module, and there in one group, where the counts of the uses
/// leave room for it (pack_devices); spare channels come after the points of their row.
std::vector<std::vector<AssignedChannel>> assign_channels(const std::vector<const ModuleUse*>& uses,
                                                          const Demand& demand);

} // namespace backplate
