#pragma once

#include "pricing/panel/panel_design.h"

namespace backplate {

/// Devices one after the other on the rows of the plan, terminals as strips below. Always succeeds
/// under the room rule; the widths are those without reserve.
Layout lay_out(const PanelDesign& design, const RoomRules& rules);

} // namespace backplate
