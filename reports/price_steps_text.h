#pragma once

#include <string>

#include "pricing/job/price_steps.h"

namespace backplate {

/// "1 more module KR-DI16", "enclosure E-600 instead of E-400"; with "in box GATE: " before it
/// where the change is in another box than the points.
std::string change_text(const DeviceChange& change, const std::string& box_of_points);

/// All changes of a step, or why nothing builds it.
std::string step_text(const PriceStep& step, const std::string& box_of_points);

} // namespace backplate
