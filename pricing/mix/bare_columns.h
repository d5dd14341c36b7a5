#pragma once

#include "pricing/mix/bare_mix.h"
#include "pricing/mix/hall_rows.h"

namespace backplate {

/// Groups of an item that are alike and whose channels all serve one kind, which is still open.
struct OneKindGroups {
    ChannelClass each;
    std::int64_t count = 0;

    bool operator==(const OneKindGroups& other) const;
};

/// What an item gives: channels that serve any accepted kind one by one, and groups of one kind.
/// Kinds that are not asked are left out.
struct ItemChannels {
    std::vector<ChannelClass> classes;
    std::vector<OneKindGroups> one_kind;
};

/// A column of the program: an item, or one of its groups of one kind given to a kind (a choice:
/// it costs nothing and takes nothing, its class is the kind).
struct BareColumn {
    static constexpr std::size_t controller = static_cast<std::size_t>(-1);
    enum class Kind { head, feed, module, choice } kind = Kind::module;

    const BareItem* item = nullptr;
    ItemChannels gives;
    std::int64_t cost = 0, most = 0;
    std::size_t owner = controller, groups = 0; ///< a choice's column and place in its one_kind
};

ItemChannels channels_of(const BareItem& item, Signals asked);

/// Channels that the item may have for the kinds; those of one-kind groups only where every kind
/// that the group accepts is among them (the rest stands in the choices).
std::int64_t whole_channels(const ItemChannels& gives, Signals kinds);

/// The sums by their weights.
std::int64_t weighed(const BareItem& item, const BareWeights& weights);

/// The kinds with a need.
Signals asked_kinds(const std::vector<std::int64_t>& need);
/// Need of the kinds together.
std::int64_t need_of(const std::vector<std::int64_t>& need, Signals kinds);

/// Heads, feeds and modules, without those that another column stands in for: no dearer, no larger,
/// no hungrier, and serves all that they serve; then the choices of the modules. Sources:
/// module-mix 2 (6), 4 (R3).
std::vector<BareColumn> columns_of(const BareMix& mix, const BareFamily& family,
                                   const BareWeights& weights, const BareLimits& limits);

/// Adds a column for every kind that a one-kind group of `owner` may take.
void add_choices(std::vector<BareColumn>& columns, const ItemChannels& gives, std::size_t owner,
                 const std::vector<std::int64_t>& need);

} // namespace backplate
