#include "pricing/mix/arrange.h"

#include <algorithm>

#include "pricing/mix/pack_stations.h"

namespace backplate {
namespace {

constexpr std::int64_t most_steps = 20'000; ///< of one search for places

int usable_places(const Part& leader, const Closers& closers) {
    const int percent = closers.free_places_percent;
    if (closers.free_of_used) return leader.places * 100 / (100 + percent);
    return leader.places * (100 - percent) / 100;
}

/// So many heads and feeds of a kind each.
struct Closing {
    const Part* leader = nullptr;
    const MixModule* head = nullptr;
    const MixModule* feed = nullptr;
    int heads = 0, feeds = 0;

    const Part& leader_of(std::size_t station) const {
        return station == 0 ? *leader : *head->part;
    }
    std::size_t stations() const { return static_cast<std::size_t>(heads) + 1; }
    std::int64_t bus() const {
        std::int64_t sum = 0;
        for (std::size_t s = 0; s < stations(); ++s) sum += limit_in(leader_of(s).bus_ma, 1);
        return feed ? sum + feeds * limit_in(feed->part->bus_ma, 1) : sum;
    }
};

/// Stations with the feeds given to each.
std::vector<OpenStation> open_stations(const Closing& closing, const std::vector<int>& feeds,
                                       const Closers& closers) {
    std::vector<OpenStation> stations;
    for (std::size_t s = 0; s < closing.stations(); ++s) {
        const Part& leader = closing.leader_of(s);
        OpenStation station{usable_places(leader, closers), {limit_in(leader.bus_ma, 1)}};
        for (int f = 0; f < feeds[s]; ++f) {
            station.places -= closing.feed->part->places;
            station.segments.push_back(limit_in(closing.feed->part->bus_ma, 1));
        }
        stations.push_back(std::move(station));
    }
    return stations;
}

/// Every way to give feeds to stations, evenly first; stations behind heads are alike, so a later
/// one of them never has more.
std::vector<std::vector<int>> feed_ways(const Closing& closing) {
    std::vector<int> even(closing.stations(), 0);
    for (int f = 0; f < closing.feeds; ++f) ++even[static_cast<std::size_t>(f) % even.size()];
    std::vector<std::vector<int>> ways{even};
    std::vector<int> way(closing.stations(), 0);
    const auto give = [&](const auto& self, std::size_t station, int left) -> void {
        if (station + 1 == way.size()) {
            way[station] = left;
            if ((station < 2 || left <= way[station - 1]) && way != even) ways.push_back(way);
            return;
        }
        const int most = station < 2 ? left : std::min(left, way[station - 1]);
        for (int count = 0; count <= most; ++count) {
            way[station] = count;
            self(self, station + 1, left - count);
        }
    };
    give(give, 0, closing.feeds);
    return ways;
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

/// The modules as places behind their leaders and feeds.
std::vector<Station> as_places(const Closing& closing, const std::vector<int>& feeds,
                               const MixMember& member, const std::vector<std::size_t>& uses,
                               const std::vector<PackedAt>& at) {
    std::vector<Station> stations;
    for (std::size_t s = 0; s < closing.stations(); ++s) {
        Station station;
        const bool onboard = s == 0 && !closing.leader->groups.empty();
        station.places.push_back({&closing.leader_of(s), onboard ? 0 : -1});
        for (std::size_t g = 0; g <= static_cast<std::size_t>(feeds[s]); ++g) {
            if (g > 0) station.places.push_back({closing.feed->part, -1});
            std::vector<std::size_t> own;
            for (std::size_t i = 0; i < uses.size(); ++i)
                if (at[i].station == s && at[i].segment == g) own.push_back(uses[i]);
            std::stable_sort(own.begin(), own.end(), [&](std::size_t a, std::size_t b) {
                return before(member.uses[a], member.uses[b]);
            });
            for (const std::size_t use : own)
                station.places.push_back({member.uses[use].part, static_cast<int>(use)});
        }
        stations.push_back(std::move(station));
    }
    return stations;
}

/// Spare places over all stations are counted before any is taken.
bool enough_places(const MixMember& member, const Closing& closing, const Closers& closers) {
    std::int64_t usable = 0, all = 0, taken = member.sums[MixSums::places];
    for (std::size_t s = 0; s < closing.stations(); ++s) {
        usable += usable_places(closing.leader_of(s), closers);
        all += closing.leader_of(s).places;
    }
    if (closing.feed) taken += closing.feeds * closing.feed->part->places;
    return taken <= usable && all - taken >= closers.free_places;
}

/// Uses of the choice that stand at places, those that serve the same signal together.
std::vector<std::size_t> placed_uses(const MixMember& member, const Part& leader) {
    std::vector<std::size_t> uses;
    for (std::size_t i = leader.groups.empty() ? 0 : 1; i < member.uses.size(); ++i)
        uses.push_back(i);
    std::stable_sort(uses.begin(), uses.end(), [&](std::size_t a, std::size_t b) {
        return before(member.uses[a], member.uses[b]);
    });
    return uses;
}

/// Places for everything in some way to give the feeds; empty: none was found, `settled` stays true
/// where there is none.
std::vector<Station> pack(const MixMember& member, const Closing& closing, const Closers& closers,
                          bool& settled) {
    const std::vector<std::size_t> uses = placed_uses(member, *closing.leader);
    std::vector<PackItem> items;
    for (const std::size_t use : uses)
        items.push_back({member.uses[use].part->places, need_in(member.uses[use].part->bus_ma, 1)});
    std::int64_t steps = most_steps;
    std::vector<PackedAt> at;
    for (const std::vector<int>& feeds : feed_ways(closing)) {
        const Packing packing =
            pack_stations(open_stations(closing, feeds, closers), items, steps, at);
        if (packing == Packing::found) return as_places(closing, feeds, member, uses, at);
        settled = settled && packing == Packing::impossible;
    }
    return {};
}

Arrangement closed_with(const MixMember& member, const Closing& closing,
                        std::vector<Station> stations) {
    const Part* head = closing.head ? closing.head->part : nullptr;
    const Part* feed = closing.feed ? closing.feed->part : nullptr;
    Arrangement result{member, head, feed, closing.heads, closing.feeds, std::move(stations)};
    for (int i = 0; i < closing.heads; ++i) result.member.sums += closing.head->sums;
    for (int i = 0; i < closing.feeds; ++i) result.member.sums += closing.feed->sums;
    if (closing.heads > 0) result.member.kinds |= closing.head->kinds;
    if (closing.feeds > 0) result.member.kinds |= closing.feed->kinds;
    return result;
}

/// Adds the arrangement with the fewest feeds from closing.feeds on, more than modules being no
/// use.
void add_fewest(const MixMember& member, Closing closing, const Closers& closers,
                Arranged& arranged) {
    const int most = closing.feed ? static_cast<int>(member.uses.size()) : 0;
    for (; closing.feeds <= most; ++closing.feeds) {
        if (!enough_places(member, closing, closers)) break;
        if (member.sums[MixSums::bus] > closing.bus()) continue;
        std::vector<Station> stations = pack(member, closing, closers, arranged.settled);
        if (!stations.empty()) {
            arranged.arrangements.push_back(closed_with(member, closing, std::move(stations)));
            break;
        }
        arranged.as_sums_allow = false;
    }
}

/// All modules behind the leader.
std::vector<Station> unpacked(const MixMember& member, const Closing& closing) {
    const std::vector<std::size_t> uses = placed_uses(member, *closing.leader);
    std::vector<int> feeds(closing.stations(), 0);
    feeds.front() = closing.feeds;
    return as_places(closing, feeds, member, uses, std::vector<PackedAt>(uses.size()));
}

/// Adds the fewest feeds that the sums ask for; false where there is no way.
bool add_loose(const MixMember& member, Closing closing, const Closers& closers,
               std::vector<Arrangement>& found) {
    const int most = closing.feed ? static_cast<int>(member.uses.size()) : 0;
    while (closing.feeds <= most && enough_places(member, closing, closers)) {
        if (member.sums[MixSums::bus] <= closing.bus()) {
            found.push_back(closed_with(member, closing, unpacked(member, closing)));
            return true;
        }
        ++closing.feeds;
    }
    return false;
}

} // namespace

std::vector<Arrangement> loose_arrangements(const MixMember& member, const Part& leader,
                                            const Closers& closers, const MixModule* head,
                                            int heads) {
    std::vector<Arrangement> found;
    if (add_loose(member, {&leader, head, nullptr, heads, 0}, closers, found)) return found;
    for (const MixModule& feed : closers.feeds)
        add_loose(member, {&leader, head, &feed, heads, 1}, closers, found);
    return found;
}

Arranged arrangements_with(const MixMember& member, const Part& leader, const Closers& closers,
                           const MixModule* head, int heads) {
    Arranged arranged;
    add_fewest(member, {&leader, head, nullptr, heads, 0}, closers, arranged);
    if (!arranged.arrangements.empty()) return arranged;
    for (const MixModule& feed : closers.feeds)
        add_fewest(member, {&leader, head, &feed, heads, 1}, closers, arranged);
    return arranged;
}

} // namespace backplate
