#include "pricing/panel/choose_boxes.h"

#include <catch2/catch.hpp>

#include "tests/pricing/panel/random_panels.h"

using namespace backplate;

namespace {

/// One controller and two boxes that it leads, with random points.
std::string two_led(Draws& draws) {
    std::string boxes;
    for (const char* name : {"OWN", "A", "B"}) {
        const bool led = name != std::string("OWN");
        boxes += (boxes.empty() ? "" : ", ") + (R"({"name": ")" + std::string(name) + "\"") +
                 (led ? R"(, "controlled_by": "OWN")" : "") + R"(, "points": [)" +
                 points_text({{"DI", draws.between(1, led ? 70 : 40)},
                              {"DO", draws.between(0, led ? 60 : 20)}}) +
                 "]}";
    }
    return R"({"format": "backplate-request/1", "boxes": [)" + boxes + "]}";
}

int stations(const PanelChoice& choice) {
    return static_cast<int>(choice.design->arrangement->stations.size());
}

/// The cheapest sum over every share of the heads among the boxes.
std::optional<std::int64_t> by_every_share(const BidRequest& request, const PriceBook& book,
                                           int most) {
    Work work;
    const RuleBook& rules = starter_rules();
    std::optional<std::int64_t> best;
    const auto panel = [&](std::size_t box, const JobShare& share) {
        return choose_panel(request, request.boxes[box], book, rules, work, share);
    };
    for (int a = 1; a < most; ++a)
        for (int b = 1; a + b <= most; ++b) {
            const PanelChoice own = panel(0, {"compact", a + b, std::nullopt, {}});
            const PanelChoice one = panel(1, {"compact", 0, a, {}}),
                              two = panel(2, {"compact", 0, b, {}});
            if (!own.design || !one.design || !two.design) continue;
            const std::int64_t cost =
                own.design->direct_cost + one.design->direct_cost + two.design->direct_cost;
            if (!best || cost < *best) best = cost;
        }
    return best;
}

} // namespace

TEST_CASE("heads are shared among the boxes of a system within what its controller leads") {
    Draws draws(907);
    int built = 0, unproven = 0;
    for (int i = 0; i < 60; ++i) {
        std::vector<Part> parts = random_book(draws);
        const int most = draws.between(1, 4);
        for (Part& part : parts)
            if (part.kind == "controller") part.stations_max = most;
        const PriceBook book(parts, 1);
        const BidRequest request = request_of(two_led(draws));
        Work work;
        const auto choices = choose_boxes(request, book, starter_rules(), work);
        const auto best = by_every_share(request, book, most);
        const bool all = choices[0].design && choices[1].design && choices[2].design;
        CAPTURE(i, most);
        CHECK(all == best.has_value());
        if (!all || !best) continue;
        ++built;
        CHECK(stations(choices[0]) - 1 + stations(choices[1]) + stations(choices[2]) <= most);
        std::int64_t cost = 0;
        bool proven = true;
        for (const PanelChoice& choice : choices) {
            cost += choice.design->direct_cost;
            proven = proven && choice.proven && choice.design->mix_proven;
        }
        CHECK(cost >= *best);
        if (proven) CHECK(cost == *best);
        unproven += proven ? 0 : 1;
    }
    CHECK(built >= 20);
    CHECK(unproven <= built / 4);
}

TEST_CASE("a platform whose controllers lead no head serves no led box") {
    Draws draws(911);
    std::vector<Part> parts = random_book(draws);
    for (Part& part : parts) part.stations_max = 0;
    const PriceBook book(parts, 1);
    const BidRequest request = request_of(two_led(draws));
    Work work;
    const auto choices = choose_boxes(request, book, starter_rules(), work);
    for (const PanelChoice& choice : choices) CHECK_FALSE(choice.design);
    REQUIRE_FALSE(choices[1].limits.empty());
    CHECK(choices[1].limits.front() ==
          "no controller of platform compact leads a station in another box");
}
