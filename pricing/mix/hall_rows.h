#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace backplate {

/// Bit per kind of signal.
using Signals = std::uint64_t;

/// Channels that any of the same kinds of signals may use.
struct ChannelClass {
    Signals accepts = 0;
    std::int64_t channels = 0;
};

/// Channels of the classes that may serve any of the kinds.
std::int64_t channels_for(const std::vector<ChannelClass>& classes, Signals kinds);

/// A set of kinds whose channels are fewer than their need; nothing where the need can be met: a
/// largest flow from channels to kinds and the cut that stops it. Sources: Gale 1957, Ford and
/// Fulkerson 1962 (module-mix 8).
std::optional<Signals> short_kinds(const std::vector<ChannelClass>& classes,
                                   const std::vector<std::int64_t>& need);

} // namespace backplate
