#pragma once

#include "pricing/job/estimate.h"
#include "pricing/panel/choose_panel.h"

namespace backplate {

/// The chosen panel as the estimate tells it; the inside temperature is solved here, once.
BoxResult box_result(const PanelChoice& choice, const RuleBook& rules, Work& work);

/// Points by signal: used, required, fitted, and how many more would cost no further module.
std::vector<PointResult> point_results(const PanelChoice& choice, const BidRequest& request);

} // namespace backplate
