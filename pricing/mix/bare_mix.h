#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "pricing/values/work.h"

namespace backplate {

/// A module-mix problem of whole numbers alone, with limits summed over the system: for checking
/// the search against other solvers. Source: module-mix 1, 2.
struct BareGroup {
    int channels = 0;
    std::uint64_t accepts = 0; ///< bit per kind of signal
    bool one_signal = false;   ///< all channels serve the same kind
};

struct BareItem {
    std::string id;
    std::array<std::int64_t, 4> sums{}; ///< cost (cents), width (0.1 mm), heat (mW), current (mA)
    std::int64_t places = 0; ///< controllers, heads: what they give; modules, feeds: what they take
    std::int64_t bus = 0;    ///< mA; controllers, heads, feeds give, modules take
    std::int64_t most_heads = 0; ///< controllers
    std::int64_t most_feeds = 0; ///< controllers, heads
    std::vector<BareGroup> groups;
};

/// Items that may be used together, one controller among them.
struct BareFamily {
    std::string id;
    std::vector<BareItem> controllers, heads, feeds, modules;
};

struct BareMix {
    std::string name;
    std::vector<std::string> signals;
    std::vector<std::int64_t> need; ///< channels by kind of signal, at most 64 kinds
    std::vector<BareFamily> families;
};

struct BareCount {
    std::string id;
    std::int64_t count = 0;
};

/// The answer for one family.
struct BareAnswer {
    bool feasible = false;
    bool proven = true; ///< false where the steps ended first: another answer may cost less
    std::array<std::int64_t, 4> sums{};
    std::vector<BareCount> items; ///< in the order of the family, none with 0
};

/// Limits on width, heat and current beside those of the family.
using BareLimits = std::array<std::optional<std::int64_t>, 4>;

/// What is minimised: a weight for each of the four sums, not negative.
using BareWeights = std::array<std::int64_t, 4>;

/// The cheapest choice of a family: exact by branch and bound over linear programs whose bounds are
/// proven in whole numbers (cover_lp.h), the open part of the least bound first over all
/// controllers, with the conditions of Hall for the channels, their roundings and whole cuts as
/// rows; every answer is verified in whole numbers. Steps count in `work.counts.candidates`; where
/// its budget ends the search the best found is told, not proven. Sources: module-mix 2
/// (conditions), 7; mixed-integer rounding of covers (Nemhauser and Wolsey, from memory).
BareAnswer least_cost(const BareMix& mix, const BareFamily& family, Work& work,
                      const BareLimits& limits = {}, const BareWeights& weights = {1, 0, 0, 0});

/// Every vector of sums that no other choice of the family beats in one without losing in another,
/// sorted; nothing where the steps ended first. Source: module-mix 7 (local upper bounds).
std::optional<std::vector<std::array<std::int64_t, 4>>>
tradeoffs(const BareMix& mix, const BareFamily& family, Work& work);

} // namespace backplate
