#pragma once

namespace backplate {

/// Throws OutsideFault where no display can be opened; the toolkit itself would end the program.
void need_display();

} // namespace backplate
