#include <catch2/catch.hpp>

#include "tests/pricing/request/starter_book.h"

namespace backplate {
namespace {

TEST_CASE("the worked job as a typed request") {
    const auto request = good_request(test_file("worked_jobs/fish_pass/request.json"));
    CHECK(request.title == "Fish pass, three gates and a screen");
    CHECK(request.date == Date::of(2026, 11, 24));
    CHECK(request.due == Date::of(2026, 12, 1));
    CHECK(request.deliver_weeks == 10);
    CHECK_FALSE(request.north_america);
    CHECK_FALSE(request.inch);
    CHECK(request.spare.stated);
    CHECK(request.spare.kind == SpareKind::wired);
    CHECK(request.spare.percent.of("DI") == Percent::whole(20));
    CHECK(request.commercial.margin == Percent::whole(20));
    CHECK_FALSE(request.commercial.markup);
    CHECK_FALSE(request.commercial.tax);
    CHECK(request.commercial.contingency == Percent::whole(5));
    CHECK(request.scope.works_test == "included");
    CHECK(request.seed == 1);
    REQUIRE(request.boxes.size() == 1);
    CHECK(request.boxes[0].work.screens == 6);
    CHECK(request.boxes[0].choices.future_load == Percent::whole(10));
    CHECK(request.boxes[0].choices.enclosure_part.empty());
}

TEST_CASE("the points of the worked job") {
    const auto request = good_request(test_file("worked_jobs/fish_pass/request.json"));
    const auto& points = request.boxes[0].points;
    REQUIRE(points.size() == 5);
    CHECK(points[1].via == "relay");
    CHECK(points[1].on_together == Percent::whole(80));
    CHECK_FALSE(points[1].fed_from_box);
    CHECK(points[2].id == "loops");
    CHECK(points[2].list.size() == 6);
    CHECK(points[2].list[5].tag == "PDT-120");
    CHECK(points[3].amps == 0.022);
    CHECK(points[3].volts == 24.0);
    CHECK(points[4].index == 4);
    CHECK(points[4].note == "fish counter, pulse");
}

TEST_CASE("site and equipment of the worked job") {
    const auto request = good_request(test_file("worked_jobs/fish_pass/request.json"));
    const Site& site = request.boxes[0].site;
    CHECK(site.ambient_low_c == 5);
    CHECK(site.ambient_high_c == 40);
    CHECK(site.altitude_m == 450);
    CHECK(site.max_depth_mm == 350.0);
    CHECK(site.protection == "IP54");
    CHECK(site.corrosion.empty());
    CHECK_FALSE(site.fault_current_ka);
    const auto& equipment = request.boxes[0].equipment;
    REQUIRE(equipment.size() == 3);
    CHECK(equipment[0].part == "NET-8");
    CHECK(equipment[0].where.empty());
    CHECK_FALSE(equipment[0].price);
    CHECK(equipment[1].price == Money());
    CHECK(equipment[1].hours == Hours::of_steps(1500));
    CHECK_FALSE(equipment[1].width_mm);
    CHECK(equipment[2].depth_mm == 110.0);
}

TEST_CASE("spare by signal, nothing stated, and wired direct") {
    const auto bare = good_request(small_request("", "", R"("via": "direct")"));
    CHECK_FALSE(bare.spare.stated);
    CHECK(bare.spare.kind == SpareKind::unstated);
    CHECK(bare.spare.wired());
    CHECK(bare.boxes[0].points[0].via.empty());
    const auto request = good_request(small_request(
        R"("spare": {"percent": {"DO": 12.5, "DI": null}, "minimum_channels": 2, "kind": "installed"})",
        R"("choices": {"enclosure": {"part": "ENC-6"}, "exclude": ["MOD-1"]})", ""));
    CHECK(request.spare.percent.of("DO") == Percent::parse("12.5"));
    CHECK(request.spare.percent.of("DI") == Percent::whole(20));
    CHECK(request.spare.minimum_channels.of("AI_V") == 2);
    CHECK_FALSE(request.spare.wired());
    CHECK(request.boxes[0].choices.enclosure_part == "ENC-6");
    CHECK(request.boxes[0].choices.exclude == std::vector<std::string>{"MOD-1"});
}

TEST_CASE("the largest seed keeps its value") {
    CHECK(good_request(small_request(R"("risk": {"seed": 4294967295})", "", "")).seed ==
          4294967295u);
}

} // namespace
} // namespace backplate
