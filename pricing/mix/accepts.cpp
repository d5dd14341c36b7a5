#include "pricing/mix/accepts.h"

#include <algorithm>

#include "pricing/values/units.h"

namespace backplate {

int accepts(const ChannelGroup& group, const MixLine& line) {
    if (std::find(group.signals.begin(), group.signals.end(), line.signal) == group.signals.end())
        return 0;
    if (line.isolated && !group.isolated) return 0;
    if (line.hart && !group.hart) return 0;
    if (!line.switched || line.amps <= 0) return group.channels;
    constexpr double step = 0.0001; // a tenth of a milliampere
    if (need_in(line.amps, step) > limit_in(group.channel_a, step)) return 0;
    if (!group.common_a) return group.channels;
    const long long together = limit_in(*group.common_a, step) / need_in(line.amps, step);
    return static_cast<int>(std::min<long long>(group.channels, together));
}

} // namespace backplate
