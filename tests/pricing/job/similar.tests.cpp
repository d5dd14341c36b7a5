// Which saved jobs are like a new one: trade-practice 5 (pain point 24) and 6.2. The measure of
// likeness is our own; the counts below are added up by hand.
#include "pricing/job/similar.h"

#include <catch2/catch.hpp>
#include <random>

using namespace backplate;

namespace {

EstimateRecord job(std::vector<EstimateRecord::Points> points) {
    EstimateRecord record;
    record.points = std::move(points);
    return record;
}

EstimateRecord::Points points(const char* signal, int used, int boxes = 1) {
    return {"CP1", signal, used, used, used, boxes};
}

} // namespace

TEST_CASE("points in common, signal by signal") {
    const auto one = job({points("DI", 30), points("DO", 20), points("RTD", 6)});
    const auto other = job({points("DI", 40), points("DO", 10), points("CNT", 2)});
    // 30 + 10 of 40 + 20 + 6 + 2: 40 of 68
    CHECK(points_in_common(one, other).text() == "58.8235");
    CHECK(points_in_common(one, one) == Percent::whole(100));
    CHECK(points_in_common(one, job({points("CNT", 4)})) == Percent{});
    CHECK(points_in_common(job({}), job({})) == Percent{});
}

TEST_CASE("boxes alike count each, and a signal in two boxes counts in both") {
    const auto three = job({points("DI", 10, 3)});
    const auto apart = job({points("DI", 10), points("DI", 20)});
    CHECK(points_in_common(three, apart) == Percent::whole(100));
    CHECK(measures_of(three).points == 30);
}

TEST_CASE("price and hours per point") {
    auto record = job({points("DI", 7)});
    CHECK_FALSE(measures_of(record).per_point);
    record.priced = PricedJob{};
    record.priced->price = Money::whole(1000);
    record.priced->labour = {{"CP1", "test", "test", 10'000, Money::whole(50), Money::whole(500)},
                             {"", "lead", "lead", 5'000, Money::whole(50), Money::whole(250)}};
    CHECK(measures_of(record).per_point == Money::parse("142.86")); // 1000 / 7
    CHECK(measures_of(record).hours_per_point->text() == "2.143");  // 15 / 7
    record.points[0].used = 0;
    CHECK_FALSE(measures_of(record).per_point);
}

TEST_CASE("likeness is the same both ways and lies between 0 and 100 %") {
    std::mt19937 random(24);
    const char* signals[] = {"DI", "DO", "AI_MA", "RTD", "CNT"};
    const auto any = [&] {
        std::vector<EstimateRecord::Points> list;
        for (const char* signal : signals)
            if (random() % 3 > 0) list.push_back(points(signal, static_cast<int>(random() % 60)));
        return job(list);
    };
    for (int i = 0; i < 5000; ++i) {
        const auto one = any(), other = any();
        const Percent alike = points_in_common(one, other);
        REQUIRE(alike == points_in_common(other, one));
        REQUIRE((alike >= Percent{} && alike <= Percent::whole(100)));
    }
}
