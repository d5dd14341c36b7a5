#include "pricing/mix/pack_stations.h"

#include <catch2/catch.hpp>
#include <iostream>

#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

/// Every way to give the items from `item` on to segments, without any cut.
bool fits(std::vector<OpenStation>& stations, const std::vector<PackItem>& items,
          std::size_t item) {
    if (item == items.size()) return true;
    for (OpenStation& station : stations)
        for (std::int64_t& segment : station.segments) {
            if (station.places < items[item].places || segment < items[item].bus) continue;
            station.places -= items[item].places;
            segment -= items[item].bus;
            const bool found = fits(stations, items, item + 1);
            station.places += items[item].places;
            segment += items[item].bus;
            if (found) return true;
        }
    return false;
}

std::vector<OpenStation> random_stations(Draws& draws) {
    std::vector<OpenStation> stations;
    for (int s = draws.between(1, 3); s > 0; --s) {
        OpenStation station{draws.between(1, 5), {}};
        for (int g = draws.between(1, 2); g > 0; --g)
            station.segments.push_back(draws.between(2, 6) * 50);
        if (!stations.empty() && draws.chance(40)) station = stations.back(); // alike
        stations.push_back(station);
    }
    return stations;
}

void check_places(std::vector<OpenStation> stations, const std::vector<PackItem>& items,
                  const std::vector<PackedAt>& at) {
    for (std::size_t i = 0; i < items.size(); ++i) {
        OpenStation& station = stations.at(at[i].station);
        station.places -= items[i].places;
        station.segments.at(at[i].segment) -= items[i].bus;
        CHECK(station.places >= 0);
        CHECK(station.segments[at[i].segment] >= 0);
    }
}

} // namespace

TEST_CASE("places and bus current per station: found where every way is tried, else impossible") {
    Draws draws(611);
    int found = 0, impossible = 0;
    for (int i = 0; i < 3000; ++i) {
        std::vector<OpenStation> stations = random_stations(draws);
        std::vector<PackItem> items;
        for (int k = draws.between(1, 7); k > 0; --k)
            items.push_back({draws.between(1, 2), draws.between(1, 4) * 40});
        std::int64_t steps = 100'000;
        std::vector<PackedAt> at;
        const Packing packing = pack_stations(stations, items, steps, at);
        CHECK(packing == (fits(stations, items, 0) ? Packing::found : Packing::impossible));
        if (packing == Packing::found) check_places(stations, items, at);
        ++(packing == Packing::found ? found : impossible);
    }
    std::cout << "stations: " << found << " packed, " << impossible << " impossible\n";
    CHECK(found >= 500);
    CHECK(impossible >= 500);
}

TEST_CASE("first fit by bus current fails where a way exists") {
    // 60 + 40 and 50 + 50 fill two stations of 100 mA; 60, 50, 50, 40 by first fit do not.
    const std::vector<OpenStation> stations(2, OpenStation{2, {100}});
    const std::vector<PackItem> items{{1, 60}, {1, 50}, {1, 50}, {1, 40}};
    std::int64_t steps = 1000;
    std::vector<PackedAt> at;
    REQUIRE(pack_stations(stations, items, steps, at) == Packing::found);
    CHECK(at[0].station == at[3].station);
    CHECK(at[1].station == at[2].station);
    steps = 3;
    CHECK(pack_stations(stations, items, steps, at) == Packing::unknown);
}
