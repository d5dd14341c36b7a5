#include "pricing/mix/bare_columns.h"

#include <algorithm>
#include <bit>

namespace backplate {
namespace {

using Column = BareColumn;

std::int64_t groups_for(std::int64_t asked, std::int64_t channels) {
    return (asked + channels - 1) / channels;
}

/// So many of the item at most: with these no group of more is of use.
std::int64_t most_of(const ItemChannels& gives, const std::vector<std::int64_t>& need) {
    std::int64_t most = 0;
    for (const ChannelClass& each : gives.classes)
        most = std::max(most, groups_for(need_of(need, each.accepts), each.channels));
    for (const OneKindGroups& groups : gives.one_kind) {
        std::int64_t used = 0;
        for (std::size_t kind = 0; kind < need.size(); ++kind)
            if (groups.each.accepts >> kind & 1)
                used += groups_for(need[kind], groups.each.channels);
        most = std::max(most, groups_for(used, groups.count));
    }
    return most;
}

/// The most channels that the item may have for the kinds.
std::int64_t most_channels(const ItemChannels& gives, Signals kinds) {
    std::int64_t channels = channels_for(gives.classes, kinds);
    for (const OneKindGroups& groups : gives.one_kind)
        if (groups.each.accepts & kinds) channels += groups.count * groups.each.channels;
    return channels;
}

bool gives_as_much(const ItemChannels& one, const ItemChannels& other) {
    if (!one.one_kind.empty() && one.one_kind != other.one_kind) return false;
    const bool alike = !one.one_kind.empty();
    Signals all = 0;
    for (const ChannelClass& each : other.classes) all |= each.accepts;
    if (!alike)
        for (const OneKindGroups& groups : other.one_kind) all |= groups.each.accepts;
    constexpr int most_kinds = 10; // beyond: too many sets to compare, both are kept
    if (std::popcount(all) > most_kinds) return false;
    for (Signals set = all; set != 0; set = (set - 1) & all)
        if (channels_for(one.classes, set) <
            (alike ? channels_for(other.classes, set) : most_channels(other, set)))
            return false;
    return true;
}

/// One is no worse than the other in cost, places and bus, and in every limited sum, and serves all
/// that the other serves.
bool stands_in(const Column& one, const Column& other, const BareLimits& limits) {
    if (one.cost > other.cost || one.item->places > other.item->places ||
        one.item->bus > other.item->bus)
        return false;
    for (std::size_t k = 0; k < limits.size(); ++k)
        if (limits[k] && one.item->sums[k] > other.item->sums[k]) return false;
    return gives_as_much(one.gives, other.gives);
}

std::vector<Column> without_beaten(const std::vector<Column>& columns, const BareLimits& limits) {
    std::vector<Column> kept;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        bool beaten = false;
        for (std::size_t k = 0; k < columns.size() && !beaten; ++k)
            beaten = k != i && columns[k].kind == Column::Kind::module &&
                     columns[i].kind == Column::Kind::module &&
                     stands_in(columns[k], columns[i], limits) &&
                     (k < i || !stands_in(columns[i], columns[k], limits));
        if (!beaten) kept.push_back(columns[i]);
    }
    return kept;
}

} // namespace

bool OneKindGroups::operator==(const OneKindGroups& other) const {
    return each.accepts == other.each.accepts && each.channels == other.each.channels &&
           count == other.count;
}

ItemChannels channels_of(const BareItem& item, Signals asked) {
    ItemChannels gives;
    for (const BareGroup& group : item.groups) {
        const ChannelClass each{group.accepts & asked, group.channels};
        if (each.accepts == 0) continue;
        if (!group.one_signal || std::has_single_bit(each.accepts)) {
            gives.classes.push_back(each);
            continue;
        }
        const auto alike = std::find_if(
            gives.one_kind.begin(), gives.one_kind.end(), [&](const OneKindGroups& groups) {
                return groups.each.accepts == each.accepts && groups.each.channels == each.channels;
            });
        if (alike == gives.one_kind.end())
            gives.one_kind.push_back({each, 1});
        else
            ++alike->count;
    }
    return gives;
}

std::int64_t whole_channels(const ItemChannels& gives, Signals kinds) {
    std::int64_t channels = channels_for(gives.classes, kinds);
    for (const OneKindGroups& groups : gives.one_kind)
        if ((groups.each.accepts & ~kinds) == 0) channels += groups.count * groups.each.channels;
    return channels;
}

std::int64_t weighed(const BareItem& item, const BareWeights& weights) {
    std::int64_t sum = 0;
    for (std::size_t k = 0; k < weights.size(); ++k) sum += weights[k] * item.sums[k];
    return sum;
}

Signals asked_kinds(const std::vector<std::int64_t>& need) {
    Signals asked = 0;
    for (std::size_t kind = 0; kind < need.size(); ++kind)
        if (need[kind] > 0) asked |= Signals{1} << kind;
    return asked;
}

std::int64_t need_of(const std::vector<std::int64_t>& need, Signals kinds) {
    std::int64_t sum = 0;
    for (std::size_t kind = 0; kind < need.size(); ++kind)
        if (kinds >> kind & 1) sum += need[kind];
    return sum;
}

std::vector<Column> columns_of(const BareMix& mix, const BareFamily& family,
                               const BareWeights& weights, const BareLimits& limits) {
    std::vector<Column> columns;
    std::int64_t most_heads = 0, most_feeds = 0, feeds_each = 0;
    for (const BareItem& item : family.controllers) {
        most_heads = std::max(most_heads, item.most_heads);
        most_feeds = std::max(most_feeds, item.most_feeds);
    }
    const auto add = [&](Column::Kind kind, const BareItem& item, ItemChannels gives,
                         std::int64_t most) {
        columns.push_back({kind, &item, std::move(gives), weighed(item, weights), most});
    };
    for (const BareItem& item : family.heads) {
        add(Column::Kind::head, item, {}, most_heads);
        feeds_each = std::max(feeds_each, item.most_feeds);
    }
    for (const BareItem& item : family.feeds)
        add(Column::Kind::feed, item, {}, most_feeds + most_heads * feeds_each);
    for (const BareItem& item : family.modules) {
        ItemChannels gives = channels_of(item, asked_kinds(mix.need));
        const std::int64_t most = most_of(gives, mix.need);
        if (most > 0) add(Column::Kind::module, item, std::move(gives), most);
    }
    columns = without_beaten(columns, limits);
    const std::size_t items = columns.size();
    for (std::size_t i = 0; i < items; ++i)
        add_choices(columns, ItemChannels(columns[i].gives), i, mix.need);
    return columns;
}

void add_choices(std::vector<Column>& columns, const ItemChannels& gives, std::size_t owner,
                 const std::vector<std::int64_t>& need) {
    for (std::size_t place = 0; place < gives.one_kind.size(); ++place) {
        const OneKindGroups& groups = gives.one_kind[place];
        for (std::size_t kind = 0; kind < need.size(); ++kind) {
            const Signals bit = Signals{1} << kind;
            if (!(groups.each.accepts & bit)) continue;
            const std::int64_t most = groups_for(need[kind], groups.each.channels);
            Column choice;
            choice.kind = Column::Kind::choice;
            choice.gives.classes.push_back({bit, groups.each.channels});
            choice.most = owner == Column::controller ? std::min(most, groups.count) : most;
            choice.owner = owner;
            choice.groups = place;
            columns.push_back(std::move(choice));
        }
    }
}

} // namespace backplate
