#pragma once

#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/candidate.h"

namespace backplate {

/// The 24 V loads of a finished design by the channel that protects them: devices of the platform
/// first, whole devices never parted, then what leaves to the field, which goes on in the next
/// channel where one is full. What stands before the channels (the channels themselves, decoupling,
/// backup) is the last group. Currents are everything on, before future load; no channel carries
/// more than its rating while all loads together do not. `layout` names the channels.
std::vector<DistributedGroup> distribute_24v(const PanelDesign& design, const SearchFacts& search,
                                             const Layout& layout);

} // namespace backplate
