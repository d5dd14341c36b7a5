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

constexpr Limits limits[] = {{"plain", 50, 1435, 509, 35},  {"plain", 200, 723, 227, 45},
                             {"plain", 500, 7921, 772, 69}, {"wide", 50, 19354, 550, 40},
                             {"wide", 200, 84541, 361, 61}, {"wide", 500, 54189, 908, 72}};

struct Judged {
    WorkCounts counts;
    std::int64_t cost = 0;
};

Judged judge(const PriceBook& book, const MadeMix& mix, int points) {
    const BidRequest request = request_of(made_request(mix, points));
    Work work;
    const PanelChoice choice =
        choose_panel(request, request.boxes.front(), book, starter_rules(), work);
    CAPTURE(mix.name, points);
    REQUIRE(choice.design);
    CHECK(choice.proven);
    CHECK(choice.design->mix_proven);
    return {work.counts, choice.design->direct_cost};
}

} // namespace

// Own output, recorded: the search does no more work than it did, on any machine.
TEST_CASE("the cheapest panel is proven within the work recorded") {
    const PriceBook book = demo_book();
    for (const Limits& limit : limits)
        for (const MadeMix& mix : made_mixes()) {
            if (std::string(mix.name) != limit.mix) continue;
            const WorkCounts counts = judge(book, mix, limit.points).counts;
            CAPTURE(limit.mix, limit.points);
            UNSCOPED_INFO("labels " << counts.mix_labels << ", candidates " << counts.candidates
                                    << ", heat " << counts.heat_evaluations);
            CHECK(counts.mix_labels * 4 <= limit.labels * 5);
            CHECK(counts.candidates * 4 <= limit.candidates * 5);
            CHECK(counts.heat_evaluations * 4 <= limit.heat * 5);
        }
}

TEST_CASE("thousands of beaten copies of modules and controllers add nothing to the search") {
    const PriceBook own = demo_book();
    const PriceBook book(with_near_copies(20), 1);
    CHECK(book.parts().size() > 3500);
    std::cout << book.parts().size() << " parts with near copies judged\n";
    for (const MadeMix& mix : made_mixes()) {
        const Judged plain = judge(own, mix, 200), copies = judge(book, mix, 200);
        CHECK(copies.cost == plain.cost);
        CHECK(copies.counts.mix_labels == plain.counts.mix_labels);
        CHECK(copies.counts.candidates == plain.counts.candidates);
        CHECK(copies.counts.heat_evaluations == plain.counts.heat_evaluations);
    }
}
