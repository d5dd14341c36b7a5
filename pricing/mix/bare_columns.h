#pragma once

#include "pricing/mix/bare_mix.h"
#include "pricing/mix/hall_rows.h"

namespace backplate {

/// An item as the program sees it: a module in one way to use its groups, a head or a feed.
struct BareColumn {
    const BareItem* item = nullptr;
    enum class Kind { head, feed, module } kind = Kind::module;
    std::vector<ChannelClass> classes;
    std::int64_t cost = 0, most = 0;
};

/// Every way to use the item's groups: those of one signal each with one kind, the same ways of
/// equal groups once. Kinds that are not asked are left out.
std::vector<std::vector<ChannelClass>> ways_of(const BareItem& item, Signals asked);

/// The sums by their weights.
std::int64_t weighed(const BareItem& item, const BareWeights& weights);

/// The kinds with a need.
Signals asked_kinds(const std::vector<std::int64_t>& need);
/// Need of the kinds together.
std::int64_t need_of(const std::vector<std::int64_t>& need, Signals kinds);

/// Heads, feeds, and modules in every way to use them, without those that another column stands in
/// for: no dearer, no larger, no hungrier, and serves all that they serve. Source: module-mix 4
/// (R2, R3).
std::vector<BareColumn> columns_of(const BareMix& mix, const BareFamily& family,
                                   const BareWeights& weights, const BareLimits& limits);

} // namespace backplate
