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
};

int usable_places(const Part& leader, const Closers& closers) {
    return leader.places * (100 - closers.free_places_percent) / 100;
}

std::vector<OpenStation> empty_stations(const Part& controller, const Part* head, int heads,
                                        const Part* feed, int feeds, const Closers& closers) {
    std::vector<OpenStation> stations;
    stations.push_back({usable_places(controller, closers), {{controller.bus_ma, {}}}});
    for (int i = 0; i < heads; ++i)
        stations.push_back({usable_places(*head, closers), {{head->bus_ma, {}}}});
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
                               const Part& controller, const Part* head, const Part* feed) {
    std::vector<Station> stations;
    for (OpenStation& station : open) {
        Station result;
        const bool first = stations.empty();
        const bool onboard = first && !controller.groups.empty();
        result.places.push_back({first ? &controller : head, onboard ? 0 : -1});
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

std::optional<std::vector<Station>> arrange(const MixMember& member, const Part& controller,
                                            const Part* head, int heads, const Part* feed,
                                            int feeds, const Closers& closers) {
    auto open = empty_stations(controller, head, heads, feed, feeds, closers);
    std::vector<std::size_t> order;
    for (std::size_t i = controller.groups.empty() ? 0 : 1; i < member.uses.size(); ++i)
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
    return as_places(open, member, controller, head, feed);
}

/// Adds the cheapest arrangement with this many heads, if there is one.
void try_heads(const MixMember& member, const Part& controller, const MixModule* head, int heads,
               const Closers& closers, std::vector<Arrangement>& out) {
    const int most_feeds = closers.feeds.empty() ? 0 : controller.places;
    const MixModule* feed = closers.feeds.empty() ? nullptr : &closers.feeds.front();
    int tried_since_enough = 0;
    for (int feeds = 0; feeds <= most_feeds; ++feeds) {
        const double bus = controller.bus_ma + (head ? heads * head->part->bus_ma : 0) +
                           (feed ? feeds * feed->part->bus_ma : 0);
        if (static_cast<double>(member.sums[MixSums::bus]) > bus) continue;
        auto stations = arrange(member, controller, head ? head->part : nullptr, heads,
                                feed ? feed->part : nullptr, feeds, closers);
        if (stations) {
            Arrangement result{
                member, head ? head->part : nullptr, feed ? feed->part : nullptr, heads,
                feeds,  std::move(*stations),        tried_since_enough == 0};
            for (int i = 0; i < heads; ++i) result.member.sums += head->sums;
            for (int i = 0; i < feeds; ++i) result.member.sums += feed->sums;
            if (heads > 0) result.member.kinds |= head->kinds;
            if (feeds > 0) result.member.kinds |= feed->kinds;
            out.push_back(std::move(result));
            return;
        }
        if (++tried_since_enough > 3) return;
    }
}

} // namespace

std::vector<Arrangement> arrangements(const MixMember& member, const Part& controller,
                                      const Closers& closers) {
    std::vector<Arrangement> result;
    try_heads(member, controller, nullptr, 0, closers, result);
    for (const MixModule& head : closers.heads) {
        int found = 0;
        for (int heads = 1; heads <= controller.stations_max && found < 2; ++heads) {
            const std::size_t before_count = result.size();
            try_heads(member, controller, &head, heads, closers, result);
            if (result.size() > before_count) ++found;
        }
    }
    return result;
}

} // namespace backplate
