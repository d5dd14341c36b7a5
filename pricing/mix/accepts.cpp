#include "pricing/mix/accepts.h"

#include <algorithm>
#include <limits>

#include "pricing/values/units.h"

namespace backplate {
namespace {

constexpr double step = 0.0001; // a tenth of a milliampere

} // namespace

int accepts(const ChannelGroup& group, const MixLine& line) {
    if (std::find(group.signals.begin(), group.signals.end(), line.signal) == group.signals.end())
        return 0;
    if (line.isolated && !group.isolated) return 0;
    if (line.hart && !group.hart) return 0;
    const std::int64_t need = common_need(line);
    if (need == 0) return group.channels;
    if (need > limit_in(group.channel_a, step)) return 0;
    return static_cast<int>(std::min<std::int64_t>(group.channels, common_limit(group) / need));
}

std::int64_t common_need(const MixLine& line) {
    return line.switched && line.amps > 0 ? need_in(line.amps, step) : 0;
}

std::int64_t common_limit(const ChannelGroup& group) {
    return group.common_a ? limit_in(*group.common_a, step)
                          : std::numeric_limits<std::int64_t>::max();
}

} // namespace backplate
