#include "pricing/mix/arrange.h"

#include <algorithm>
#include <optional>

namespace backplate {
namespace {

/// A stretch of a station between feeds.
struct Segment {
    double bus_left = 0;
    std::vector<std::size_t> uses;
};

struct OpenStation {
    int places_left = 0;
    std::vector<Segment> segments;
    int kept_free = 0; ///< beside the places left
};

int usable_places(const Part& leader, const Closers& closers) {
    const int percent = closers.free_places_percent;
    if (closers.free_of_used) return leader.places * 100 / (100 + percent);
    return leader.places * (100 - percent) / 100;
}

std::vector<OpenStation> empty_stations(const Part& leader, const Part* head, int heads,
                                        const Part* feed, int feeds, const Closers& closers) {
    std::vector<OpenStation> stations;
    const auto add = [&](const Part& first) {
        const int usable = usable_places(first, closers);
        stations.push_back({usable, {{first.bus_ma, {}}}, first.places - usable});
    };
    add(leader);
    for (int i = 0; i < heads; ++i) add(*head);
    for (int i = 0; i < feeds; ++i) {
        OpenStation& station = stations[static_cast<std::size_t>(i) % stations.size()];
        station.places_left -= feed->places;
        station.segments.push_back({feed->bus_ma, {}});
    }
    return stations;
}

bool put(std::vector<OpenStation>& stations, const MixMember& member, std::size_t use) {
    const Part& part = *member.uses[use].part;
    for (OpenStation& station : stations) {
        if (station.places_left < part.places) continue;
        for (Segment& segment : station.segments) {
            if (segment.bus_left < part.bus_ma) continue;
            station.places_left -= part.places;
            segment.bus_left -= part.bus_ma;
            segment.uses.push_back(use);
            return true;
        }
    }
    return false;
}

std::size_t first_line(const ModuleUse& use) {
    for (std::size_t i = 0; i < use.carried.size(); ++i)
        if (use.carried[i] > 0) return i;
    return use.carried.size();
}

/// Neighbours serve the same signal; within it the order of the price book.
bool before(const ModuleUse& a, const ModuleUse& b) {
    if (first_line(a) != first_line(b)) return first_line(a) < first_line(b);
    if (a.part->key != b.part->key) return a.part->key < b.part->key;
    return a.carried > b.carried;
}

std::vector<Station> as_places(std::vector<OpenStation>& open, const MixMember& member,
                               const Part& leader, const Part* head, const Part* feed) {
    std::vector<Station> stations;
    for (OpenStation& station : open) {
        Station result;
        const bool first = stations.empty();
        const bool onboard = first && !leader.groups.empty();
        result.places.push_back({first ? &leader : head, onboard ? 0 : -1});
        for (std::size_t s = 0; s < station.segments.size(); ++s) {
            if (s > 0) result.places.push_back({feed, -1});
            auto& uses = station.segments[s].uses;
            std::stable_sort(uses.begin(), uses.end(), [&](std::size_t a, std::size_t b) {
                return before(member.uses[a], member.uses[b]);
            });
            for (const std::size_t use : uses)
                result.places.push_back({member.uses[use].part, static_cast<int>(use)});
        }
        stations.push_back(std::move(result));
    }
    return stations;
}

std::optional<std::vector<Station>> arrange(const MixMember& member, const Part& leader,
                                            const Part* head, int heads, const Part* feed,
                                            int feeds, const Closers& closers) {
    auto open = empty_stations(leader, head, heads, feed, feeds, closers);
    std::vector<std::size_t> order;
    for (std::size_t i = leader.groups.empty() ? 0 : 1; i < member.uses.size(); ++i)
        order.push_back(i);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const Part& one = *member.uses[a].part;
        const Part& other = *member.uses[b].part;
        if (one.bus_ma != other.bus_ma) return one.bus_ma > other.bus_ma;
        return before(member.uses[a], member.uses[b]);
    });
    for (const OpenStation& station : open)
        if (station.places_left < 0) return std::nullopt;
    for (const std::size_t use : order)
        if (!put(open, member, use)) return std::nullopt;
    int free = 0;
    for (const OpenStation& station : open) free += station.places_left + station.kept_free;
    if (free < closers.free_places) return std::nullopt;
    return as_places(open, member, leader, head, feed);
}

/// What is tried to close a member: so many heads and feeds of a kind each.
struct Closing {
    const MixModule* head = nullptr;
    const MixModule* feed = nullptr;
    int heads = 0, feeds = 0;

    double bus(const Part& leader) const {
        return leader.bus_ma + (head ? heads * head->part->bus_ma : 0) +
               (feed ? feeds * feed->part->bus_ma : 0);
    }
};

std::optional<Arrangement> close_with(const MixMember& member, const Part& leader,
                                      const Closing& closing, const Closers& closers) {
    const Part* head = closing.head ? closing.head->part : nullptr;
    const Part* feed = closing.feed ? closing.feed->part : nullptr;
    auto stations = arrange(member, leader, head, closing.heads, feed, closing.feeds, closers);
    if (!stations) return std::nullopt;
    Arrangement result{member, head, feed, closing.heads, closing.feeds, std::move(*stations)};
    for (int i = 0; i < closing.heads; ++i) result.member.sums += closing.head->sums;
    for (int i = 0; i < closing.feeds; ++i) result.member.sums += closing.feed->sums;
    if (closing.heads > 0) result.member.kinds |= closing.head->kinds;
    if (closing.feeds > 0) result.member.kinds |= closing.feed->kinds;
    return result;
}

/// The arrangement with the fewest feeds from closing.feeds on; more feeds than modules are no use.
std::optional<Arrangement> fewest_feeds(const MixMember& member, const Part& leader,
                                        Closing closing, const Closers& closers) {
    constexpr int tries = 4; // beyond the first count that gives enough bus current
    const int most = closing.feed ? static_cast<int>(member.uses.size()) : 0;
    int tried = 0;
    for (; closing.feeds <= most && tried < tries; ++closing.feeds) {
        if (static_cast<double>(member.sums[MixSums::bus]) > closing.bus(leader)) continue;
        auto result = close_with(member, leader, closing, closers);
        if (result) {
            result->fewest = tried == 0;
            return result;
        }
        ++tried;
    }
    return std::nullopt;
}

/// Adds the arrangements with this many heads: without a feed, or one for each kind of feed.
bool try_heads(const MixMember& member, const Part& leader, const MixModule* head, int heads,
               const Closers& closers, std::vector<Arrangement>& out) {
    const std::size_t before_count = out.size();
    const bool enough = static_cast<double>(member.sums[MixSums::bus]) <=
                        Closing{head, nullptr, heads, 0}.bus(leader);
    auto bare = fewest_feeds(member, leader, {head, nullptr, heads, 0}, closers);
    if (bare) {
        out.push_back(std::move(*bare));
        return true;
    }
    for (const MixModule& feed : closers.feeds) {
        auto result = fewest_feeds(member, leader, {head, &feed, heads, 1}, closers);
        if (!result) continue;
        result->fewest = result->fewest && !enough;
        out.push_back(std::move(*result));
    }
    return out.size() > before_count;
}

} // namespace

std::vector<Arrangement> arrangements_with(const MixMember& member, const Part& leader,
                                           const Closers& closers, const MixModule* head,
                                           int heads) {
    std::vector<Arrangement> result;
    try_heads(member, leader, head, heads, closers, result);
    return result;
}

std::vector<Arrangement> arrangements(const MixMember& member, const Part& leader,
                                      const Closers& closers) {
    std::vector<Arrangement> result;
    try_heads(member, leader, nullptr, 0, closers, result);
    for (const MixModule& head : closers.heads) {
        int found = 0;
        for (int heads = 1; heads <= closers.most_heads && found < 2; ++heads)
            if (try_heads(member, leader, &head, heads, closers, result)) ++found;
    }
    return result;
}

} // namespace backplate
