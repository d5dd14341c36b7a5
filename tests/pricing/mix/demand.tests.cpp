#include "pricing/mix/demand.h"

#include <catch2/catch.hpp>
#include <numeric>

#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

PointLine line_of(const std::string& signal, int count, double amps = 0) {
    PointLine line;
    line.signal = signal;
    line.count = count;
    line.amps = amps;
    line.wiring = "2-wire";
    return line;
}

Demand demand_for(const std::vector<PointLine>& lines, const SpareRule& spare, Box& box) {
    box.points = lines;
    return demand_of(box, spare, starter_rules(), std::vector<double>(lines.size(), 0.016));
}

SpareRule percent_of_used(int percent) {
    SpareRule spare;
    spare.percent.fallback = Percent::whole(percent);
    return spare;
}

struct SpareCase {
    int used;
    SpareBasis basis;
    int channels;
};

/// Published check SP1: 20 % spare, rounded up per signal (trade-practice 3.2).
constexpr SpareCase sp1[] = {
    {45, SpareBasis::of_used, 54},      {45, SpareBasis::of_installed, 57},
    {52, SpareBasis::of_used, 63},      {52, SpareBasis::of_installed, 65},
    {13, SpareBasis::of_used, 16},      {13, SpareBasis::of_installed, 17},
    {16, SpareBasis::of_used, 20},      {32, SpareBasis::of_used, 39},
    {32, SpareBasis::of_installed, 40},
};

struct PercentCase {
    int used;
    const char* percent;
    int channels;
};

/// Published check SP2: binary fractions would give one more (trade-practice 3.2).
constexpr PercentCase sp2[] = {{50, "10", 55}, {60, "15", 69}, {100, "10", 110}};

} // namespace

TEST_CASE("spare channels by the published checks") {
    int judged = 0;
    for (const SpareCase& row : sp1) {
        CAPTURE(row.used, row.channels);
        CHECK(required_channels(row.used, row.basis, Percent::whole(20), 0) == row.channels);
        ++judged;
    }
    for (const PercentCase& row : sp2) {
        CAPTURE(row.used, row.percent);
        CHECK(required_channels(row.used, SpareBasis::of_used, *Percent::parse(row.percent), 0) ==
              row.channels);
        ++judged;
    }
    CHECK(judged == 12);
}

TEST_CASE("the minimum counts where it is more than the percentage") {
    CHECK(required_channels(10, SpareBasis::of_used, Percent::whole(20), 1) == 12);
    CHECK(required_channels(10, SpareBasis::of_used, Percent::whole(20), 4) == 14);
    CHECK(required_channels(0, SpareBasis::of_used, Percent::whole(20), 4) == 0);
    for (int used = 1; used < 200; ++used)
        CHECK(required_channels(used + 1, SpareBasis::of_installed, Percent::whole(17), 3) >
              required_channels(used, SpareBasis::of_installed, Percent::whole(17), 3));
}

TEST_CASE("free places add no channels") {
    SpareRule spare = percent_of_used(25);
    Box box;
    CHECK(demand_for({line_of("DI", 10)}, spare, box).signals.front().required == 13);
    spare.kind = SpareKind::slot;
    CHECK(demand_for({line_of("DI", 10)}, spare, box).signals.front().required == 10);
}

TEST_CASE("spare is counted per signal and shared by the largest remainder") {
    Box box;
    // 3 + 4 + 4 = 11, 30 % of it: 14.3, so 15; 4 extra: 12/11, 16/11, 16/11.
    const Demand demand =
        demand_for({line_of("DO", 3, 0.1), line_of("DO", 4, 0.2), line_of("DO", 4, 0.3)},
                   percent_of_used(30), box);
    REQUIRE(demand.signals.size() == 1);
    CHECK(demand.signals.front().required == 15);
    CHECK(demand.lines[0].required == 4);
    CHECK(demand.lines[1].required == 6); // the first of equal remainders
    CHECK(demand.lines[2].required == 5);
    CHECK(demand.mix.size() == 3);
}

TEST_CASE("shares add up, none gives less than it uses") {
    Draws draws(3);
    int judged = 0;
    for (int i = 0; i < 500; ++i, ++judged) {
        std::vector<PointLine> lines;
        for (int k = draws.between(1, 6); k > 0; --k)
            lines.push_back(line_of(draws.chance(50) ? "DI" : "DO", draws.between(0, 40), k * 0.1));
        Box box;
        const Demand demand = demand_for(lines, percent_of_used(draws.between(0, 60)), box);
        for (const SignalDemand& signal : demand.signals) {
            int used = 0, required = 0;
            for (const DemandLine& line : demand.lines)
                if (line.points->signal == signal.signal) {
                    CHECK(line.required >= line.used);
                    used += line.used;
                    required += line.required;
                }
            CHECK(used == signal.used);
            CHECK(required == signal.required);
        }
        int mixed = 0, wanted = 0;
        for (const MixLine& line : demand.mix) mixed += line.channels;
        for (const DemandLine& line : demand.lines) wanted += line.required;
        CHECK(mixed == wanted);
    }
    CHECK(judged == 500);
}

TEST_CASE("a signal may have its own percentage and minimum") {
    SpareRule spare = percent_of_used(20);
    spare.percent.exceptions["AI_MA"] = Percent::whole(50);
    spare.minimum_channels.exceptions["DO"] = 7;
    Box box;
    const Demand demand =
        demand_for({line_of("DI", 10), line_of("AI_MA", 10), line_of("DO", 10)}, spare, box);
    CHECK(demand.signals[0].required == 12);
    CHECK(demand.signals[1].required == 15);
    CHECK(demand.signals[2].required == 17);
}

TEST_CASE("an interface asks the module for its own signal and current") {
    PointLine relay = line_of("DO_RELAY", 5, 2);
    relay.via = "relay";
    Box box;
    const Demand demand = demand_for({relay, line_of("DO", 3, 0.016)}, percent_of_used(0), box);
    REQUIRE(demand.lines.front().interface);
    CHECK(demand.lines.front().module_signal == "DO");
    CHECK(demand.lines.front().module_amps == 0.016);
    REQUIRE(demand.mix.size() == 1); // equal needs are one line
    CHECK(demand.mix.front().channels == 8);
    CHECK(demand.mix.front().switched);
}
