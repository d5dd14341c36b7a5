#include "pricing/mix/arrange.h"

#include <catch2/catch.hpp>
#include <deque>
#include <iostream>
#include <map>

#include "tests/pricing/mix/every_arrangement.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Part leader(const char* kind, int places, double bus_ma, int stations_max = 0) {
    Part part;
    part.key = kind;
    part.kind = kind;
    part.places = places;
    part.bus_ma = bus_ma;
    part.stations_max = stations_max;
    return part;
}

struct Rack {
    Part controller, head, feed;
    std::deque<Part> modules;
    MixMember member;
    Closers closers;

    Rack(Part with, Part and_head, Part and_feed)
        : controller(std::move(with)), head(std::move(and_head)), feed(std::move(and_feed)) {
        closers.most_heads = controller.stations_max;
    }
    void add(int places, double bus_ma) {
        Part part = leader("module", places, bus_ma);
        part.key = "M" + std::to_string(modules.size());
        modules.push_back(part);
        member.uses.push_back({&modules.back(), {1}, {0}});
        member.sums[MixSums::bus] += static_cast<std::int64_t>(bus_ma);
        member.sums[MixSums::places] += places;
        member.sums[MixSums::cost] += 10;
    }
    void close_with_head() { closers.heads.push_back(closer(head, 100)); }
    void close_with_feed() { closers.feeds.push_back(closer(feed, 30)); }
    std::vector<Arrangement> arranged() const {
        return every_arrangement(member, controller, closers);
    }

private:
    static MixModule closer(const Part& part, std::int64_t cost) {
        MixModule module;
        module.part = &part;
        module.sums[MixSums::cost] = cost;
        module.sums[MixSums::modules] = 1;
        module.kinds = std::uint64_t{1} << 40;
        return module;
    }
};

/// Places of every station and bus current of every segment hold; every module stands once.
void check_limits(const Arrangement& arrangement, const Rack& rack) {
    std::map<int, int> seen;
    int heads = 0, feeds = 0;
    for (const Station& station : arrangement.stations) {
        REQUIRE_FALSE(station.places.empty());
        const Part& first = *station.places.front().part;
        heads += &first == &rack.head ? 1 : 0;
        int places = 0;
        double bus = first.bus_ma;
        for (std::size_t i = 1; i < station.places.size(); ++i) {
            const Place& place = station.places[i];
            places += place.part->places;
            if (place.part == &rack.feed) {
                bus = place.part->bus_ma;
                ++feeds;
            } else {
                bus -= place.part->bus_ma;
                ++seen[place.use];
            }
            CHECK(bus >= 0);
        }
        const int free = rack.closers.free_places_percent;
        CHECK(places * 100 <= first.places * (100 - free));
    }
    CHECK(heads == arrangement.heads);
    CHECK(feeds == arrangement.feeds);
    CHECK(seen.size() == rack.member.uses.size());
    for (const auto& [use, times] : seen) CHECK(times == 1);
    CHECK(arrangement.member.sums[MixSums::cost] ==
          rack.member.sums[MixSums::cost] + heads * 100 + feeds * 30);
}

} // namespace

TEST_CASE("no closer where places and bus reach") {
    Rack rack(leader("controller", 4, 400, 2), leader("head", 4, 400), leader("feed", 1, 300));
    for (int i = 0; i < 4; ++i) rack.add(1, 100);
    rack.close_with_head();
    rack.close_with_feed();
    const auto arranged = rack.arranged();
    REQUIRE_FALSE(arranged.empty());
    CHECK(arranged.front().heads == 0);
    CHECK(arranged.front().feeds == 0);
    check_limits(arranged.front(), rack);
}

TEST_CASE("a feed where the bus current asks for it") {
    Rack rack(leader("controller", 8, 250), leader("head", 4, 400), leader("feed", 1, 300));
    for (int i = 0; i < 4; ++i) rack.add(1, 100);
    CHECK(rack.arranged().empty());
    rack.close_with_feed();
    const auto arranged = rack.arranged();
    REQUIRE(arranged.size() == 1);
    CHECK(arranged.front().feeds == 1);
    check_limits(arranged.front(), rack);
}

TEST_CASE("a head where the places ask for it, none beyond the controller's stations") {
    Rack rack(leader("controller", 2, 1000, 2), leader("head", 3, 1000), leader("feed", 1, 300));
    for (int i = 0; i < 7; ++i) rack.add(1, 10);
    CHECK(rack.arranged().empty());
    rack.close_with_head();
    const auto arranged = rack.arranged();
    REQUIRE(arranged.size() == 1); // 2 + 2 × 3 = 8 places; a third head is not allowed
    CHECK(arranged.front().heads == 2);
    check_limits(arranged.front(), rack);
    rack.add(1, 10);
    rack.add(1, 10);
    CHECK(rack.arranged().empty());
}

TEST_CASE("places kept free in every station") {
    Rack rack(leader("controller", 10, 1000, 1), leader("head", 10, 1000), leader("feed", 1, 1));
    for (int i = 0; i < 9; ++i) rack.add(1, 10);
    rack.close_with_head();
    CHECK(rack.arranged().front().heads == 0);
    rack.closers.free_places_percent = 20;
    const auto arranged = rack.arranged();
    REQUIRE_FALSE(arranged.empty());
    CHECK(arranged.front().heads == 1);
    check_limits(arranged.front(), rack);
}

TEST_CASE("the cheaper of two feeds is among the arrangements") {
    Rack rack(leader("controller", 8, 250), leader("head", 4, 400), leader("feed", 1, 300));
    for (int i = 0; i < 4; ++i) rack.add(1, 100);
    rack.close_with_feed();
    rack.closers.feeds.front().sums[MixSums::cost] = 90;
    Part cheap = leader("feed", 1, 300);
    cheap.key = "feed2";
    MixModule closer;
    closer.part = &cheap;
    closer.sums[MixSums::cost] = 30;
    rack.closers.feeds.push_back(closer);
    std::int64_t least = 1000000;
    for (const Arrangement& arrangement : rack.arranged())
        least = std::min(least, arrangement.member.sums[MixSums::cost]);
    CHECK(least == 40 + 30);
}

TEST_CASE("every arrangement of random racks holds the limits") {
    Draws draws(5);
    int arranged = 0, impossible = 0, with_feed = 0, with_head = 0;
    for (int i = 0; i < 1000; ++i) {
        Rack rack(
            leader("controller", draws.between(2, 8), draws.between(100, 500), draws.between(0, 4)),
            leader("head", draws.between(2, 8), draws.between(100, 500)),
            leader("feed", draws.between(0, 1), draws.between(100, 400)));
        for (int k = draws.between(1, 14); k > 0; --k)
            rack.add(draws.between(1, 2), draws.between(10, 120));
        if (draws.chance(80)) rack.close_with_head();
        if (draws.chance(60)) rack.close_with_feed();
        if (draws.chance(20)) rack.closers.free_places_percent = 25;
        const auto all = rack.arranged();
        for (const Arrangement& arrangement : all) {
            check_limits(arrangement, rack);
            ++arranged;
            with_feed += arrangement.feeds > 0 ? 1 : 0;
            with_head += arrangement.heads > 0 ? 1 : 0;
        }
        impossible += all.empty() ? 1 : 0;
    }
    std::cout << "arrangements: " << arranged << " judged, " << with_feed << " with feeds, "
              << with_head << " with heads; " << impossible << " racks impossible\n";
    CHECK(arranged >= 800);
    CHECK(with_feed >= 40);
    CHECK(with_head >= 400);
    CHECK(impossible >= 100);
}
