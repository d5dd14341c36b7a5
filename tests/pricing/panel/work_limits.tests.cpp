#include <catch2/catch.hpp>
#include <iostream>

#include "pricing/panel/choose_panel.h"
#include "tests/bench/made_requests.h"

using namespace backplate;

namespace {

/// What one search may count: as recorded, and a quarter more.
struct Limits {
    const char* mix;
    int points;
    std::int64_t labels, candidates, heat;
};

constexpr Limits limits[] = {{"plain", 50, 1547, 522, 59},  {"plain", 200, 743, 237, 69},
                             {"plain", 500, 8584, 948, 94}, {"wide", 50, 19745, 568, 64},
                             {"wide", 200, 86204, 587, 86}, {"wide", 500, 58744, 860, 96}};

} // namespace

// Own output, recorded: the search does no more work than it did, on any machine.
TEST_CASE("the cheapest panel is proven within the work recorded") {
    const PriceBook book = demo_book();
    for (const Limits& limit : limits)
        for (const MadeMix& mix : made_mixes()) {
            if (std::string(mix.name) != limit.mix) continue;
            const BidRequest request = request_of(made_request(mix, limit.points));
            Work work;
            const PanelChoice choice =
                choose_panel(request, request.boxes.front(), book, starter_rules(), work);
            CAPTURE(limit.mix, limit.points);
            REQUIRE(choice.design);
            CHECK(choice.proven);
            CHECK(choice.design->mix_proven);
            CHECK(work.counts.mix_labels * 4 <= limit.labels * 5);
            CHECK(work.counts.candidates * 4 <= limit.candidates * 5);
            CHECK(work.counts.heat_evaluations * 4 <= limit.heat * 5);
        }
}
