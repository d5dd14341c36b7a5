#pragma once

#include <cstdint>

#include "pricing/book/part.h"
#include "pricing/mix/demand.h"

namespace backplate {

/// Channels of the group that may carry the line at worst case: 0 where the group does not accept
/// it (signal, amperes per channel, isolation, HART), else at most floor(common ÷ amperes).
/// Source: electrical-facts 5, "check the group total as well as the channel".
int accepts(const ChannelGroup& group, const MixLine& line);

/// What one channel of the line takes of a group's common current; 0 where it does not count.
/// Tenths of a milliampere, rounded up.
std::int64_t common_need(const MixLine& line);

/// What all channels of the group may give together, tenths of a milliampere, rounded down.
std::int64_t common_limit(const ChannelGroup& group);

} // namespace backplate
