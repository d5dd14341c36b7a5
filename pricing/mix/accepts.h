#pragma once

#include "pricing/book/part.h"
#include "pricing/mix/demand.h"

namespace backplate {

/// Channels of the group that may carry the line at worst case: 0 where the group does not accept
/// it (signal, amperes per channel, isolation, HART), else at most floor(common ÷ amperes).
/// Source: electrical-facts 5, "check the group total as well as the channel".
int accepts(const ChannelGroup& group, const MixLine& line);

} // namespace backplate
