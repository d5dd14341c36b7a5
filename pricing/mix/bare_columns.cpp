#include "pricing/mix/bare_columns.h"

#include <algorithm>
#include <bit>

namespace backplate {
namespace {

using Column = BareColumn;

/// Every way to give the groups of one signal each a kind; equal groups in order.
void ways_of(const std::vector<BareGroup>& groups, Signals asked, std::size_t at,
             std::vector<ChannelClass>& classes, std::vector<std::vector<ChannelClass>>& out) {
    if (at == groups.size()) {
        out.push_back(classes);
        return;
    }
    const BareGroup& group = groups[at];
    const Signals accepts = group.accepts & asked;
    if (!group.one_signal || (accepts & (accepts - 1)) == 0) {
        if (accepts) classes.push_back({accepts, group.channels});
        ways_of(groups, asked, at + 1, classes, out);
        if (accepts) classes.pop_back();
        return;
    }
    const bool again = at > 0 && groups[at - 1].one_signal &&
                       groups[at - 1].accepts == group.accepts &&
                       groups[at - 1].channels == group.channels && !classes.empty();
    for (Signals kind = 1; kind != 0 && kind <= accepts; kind <<= 1) {
        if (!(accepts & kind) || (again && kind < classes.back().accepts)) continue;
        classes.push_back({kind, group.channels});
        ways_of(groups, asked, at + 1, classes, out);
        classes.pop_back();
    }
}

/// So many of the item at most: no group of more is of use.
std::int64_t most_of(const std::vector<ChannelClass>& classes,
                     const std::vector<std::int64_t>& need) {
    std::int64_t most = 0;
    for (const ChannelClass& each : classes) {
        const std::int64_t asked = need_of(need, each.accepts);
        most = std::max(most, (asked + each.channels - 1) / each.channels);
    }
    return most;
}

/// One is no worse than the other in cost, places and bus, and in every limited sum, and serves all
/// that the other serves.
bool stands_in(const Column& one, const Column& other, const BareLimits& limits) {
    if (one.cost > other.cost || one.item->places > other.item->places ||
        one.item->bus > other.item->bus)
        return false;
    for (std::size_t k = 0; k < limits.size(); ++k)
        if (limits[k] && one.item->sums[k] > other.item->sums[k]) return false;
    Signals all = 0;
    for (const ChannelClass& each : other.classes) all |= each.accepts;
    constexpr int most_kinds = 10; // beyond: too many sets to compare, both are kept
    if (std::popcount(all) > most_kinds) return false;
    for (Signals set = all; set != 0; set = (set - 1) & all)
        if (channels_for(one.classes, set) < channels_for(other.classes, set)) return false;
    return true;
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

std::vector<std::vector<ChannelClass>> ways_of(const BareItem& item, Signals asked) {
    std::vector<std::vector<ChannelClass>> out;
    std::vector<ChannelClass> classes;
    ways_of(item.groups, asked, 0, classes, out);
    return out;
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
    std::int64_t most_heads = 0, most_feeds = 0;
    for (const BareItem& item : family.controllers) {
        most_heads = std::max(most_heads, item.most_heads);
        most_feeds = std::max(most_feeds, item.most_feeds);
    }
    std::int64_t feeds_each = 0;
    for (const BareItem& item : family.heads) {
        columns.push_back({&item, Column::Kind::head, {}, weighed(item, weights), most_heads});
        feeds_each = std::max(feeds_each, item.most_feeds);
    }
    for (const BareItem& item : family.feeds)
        columns.push_back({&item,
                           Column::Kind::feed,
                           {},
                           weighed(item, weights),
                           most_feeds + most_heads * feeds_each});
    const Signals asked = asked_kinds(mix.need);
    for (const BareItem& item : family.modules)
        for (auto& classes : ways_of(item, asked)) {
            if (classes.empty()) continue;
            const std::int64_t most = most_of(classes, mix.need);
            columns.push_back(
                {&item, Column::Kind::module, std::move(classes), weighed(item, weights), most});
        }
    return without_beaten(columns, limits);
}

} // namespace backplate
