// Enclosures side by side as one panel. Parts and prices are invented; own output where no source
// is named.
#include <catch2/catch.hpp>

#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Estimate estimate_of(int inputs, const std::string& more, const RuleBook& rules = starter_rules()) {
    const PriceBook book(demo_parts(), 1);
    Work work;
    return price_job(request_of(box_request(points_text({{"DI", inputs}}), more)), book, rules,
                     work);
}

/// In floor bays of 600 mm, with what is allowed at the site and a choice more.
std::string bays(const std::string& width, const std::string& choice = {}) {
    return R"(, "site": {"mounting": "free", "max_mm": {"width": )" + width +
           R"(}}, "choices": {"enclosure": {"part": "FB-0618"})" + choice + "}";
}

bool said(const Estimate& estimate, const std::string& code) {
    for (const Finding& finding : estimate.findings)
        if (finding.code == code) return true;
    return false;
}

std::int64_t pieces_of(const Estimate& estimate, const std::string& part) {
    for (const BillLine& line : estimate.bill)
        if (line.part == part) return line.quantity;
    return 0;
}

} // namespace

TEST_CASE("what one enclosure does not hold stands in several side by side") {
    const Estimate one = estimate_of(40, bays("2400"));
    REQUIRE(one.buildable);
    CHECK(one.boxes[0].enclosures[0].quantity == 1);
    CHECK_FALSE(said(one, "SUITE"));
    const Estimate more = estimate_of(220, bays("2400"));
    REQUIRE(more.buildable);
    const int pieces = more.boxes[0].enclosures[0].quantity;
    CHECK(pieces > 1);
    CHECK(more.boxes[0].enclosures[0].width_mm == 600);
    CHECK(pieces_of(more, "FB-0618") == pieces);
    CHECK(pieces_of(more, "FB-JK") == pieces - 1);
    CHECK(said(more, "SUITE"));
    CHECK_FALSE(said(more, "SUITE_JOINING"));
    CHECK(more.boxes[0].layout.free.size() == static_cast<std::size_t>(pieces));
    for (const PlacedDevice& device : more.boxes[0].layout.devices)
        if (device.kind == "main_switch") CHECK(device.enclosure == 0);
    const Estimate bare = estimate_of(220, bays("2400", R"(, "exclude": ["FB-JK"])"));
    REQUIRE(bare.buildable);
    CHECK(said(bare, "SUITE_JOINING"));
}

TEST_CASE("the width allowed holds for all enclosures together") {
    CHECK(estimate_of(220, bays("2400")).buildable);
    const Estimate narrow = estimate_of(220, bays("1199"));
    CHECK_FALSE(narrow.buildable);
    CHECK(narrow.boxes[0].enclosures.empty());
}

TEST_CASE("rules say how many enclosures stand side by side, and which") {
    RuleBook none = starter_rules();
    none.suites.floor_enclosures.reset();
    CHECK_FALSE(estimate_of(220, bays("2400"), none).buildable);
    RuleBook single = starter_rules();
    single.suites.most->value = Decimal{1, 0};
    CHECK_FALSE(estimate_of(220, bays("2400"), single).buildable);
    const std::string wall = R"(, "choices": {"enclosure": {"part": "BE-0608"}})";
    CHECK_FALSE(estimate_of(160, wall).buildable);
    RuleBook walls = starter_rules();
    walls.suites.wall_boxes->value = Decimal{1, 0};
    const Estimate boxes = estimate_of(160, wall, walls);
    REQUIRE(boxes.buildable);
    CHECK(boxes.boxes[0].enclosures[0].quantity > 1);
}
