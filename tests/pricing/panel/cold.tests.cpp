#include "pricing/panel/cold.h"

#include <catch2/catch.hpp>

#include "tests/pricing/sample_books.h"

using namespace backplate;

// climate-and-supply 4.4: with the constants of the WMO guide 25 °C at 60 % has its dew point at
// 16.693 °C, 22 °C at 78 % at 17.985 °C (two pages with other constants print 16.70 and 17.98);
// the others are the collection's own.
TEST_CASE("dew points") {
    CHECK(dew_point(25, 60) == Approx(16.693).margin(0.001));
    CHECK(dew_point(22, 78) == Approx(17.985).margin(0.001));
    CHECK(dew_point(25, 60) == Approx(16.70).margin(0.01));
    CHECK(dew_point(22, 78) == Approx(17.98).margin(0.01));
    CHECK(dew_point(30, 80) == Approx(26.17).margin(0.01));
    CHECK(dew_point(20, 60) == Approx(11.99).margin(0.01));
    CHECK(dew_point(12, 100) == Approx(12));
}

// climate-and-supply 4.4, table of condensation rises: own computation there.
TEST_CASE("rise to a drier inside") {
    CHECK(rise_to_humidity(20, 90, 60).value == Approx(6.7).margin(0.05));
    CHECK(rise_to_humidity(10, 95, 60).value == Approx(7.1).margin(0.05));
    CHECK(rise_to_humidity(5, 100, 65).value == Approx(6.3).margin(0.05));
    CHECK(rise_to_humidity(-10, 100, 60).value == Approx(6.7).margin(0.05));
    CHECK(rise_to_humidity(20, 50, 60).value == 0);
}

TEST_CASE("cold or dew asks for a rise") {
    const RuleBook& rules = starter_rules();
    Site site;
    site.place = "indoor";
    site.ambient_low_c = 5;
    CHECK(cold_need(site, -10, rules).rise.value == 0);
    CHECK(cold_need(site, std::nullopt, rules).rise.value == 0);
    site.ambient_low_c = -25;
    CHECK(cold_need(site, -10, rules).rise.value == Approx(15));
    CHECK_FALSE(cold_need(site, -10, rules).dew);
    site.ambient_low_c = 5;
    site.humidity_percent = 95; // 60 % inside are a row of the heat table
    CHECK(cold_need(site, -10, rules).rise.value == Approx(rise_to_humidity(5, 95, 60).value));
    CHECK(cold_need(site, -10, rules).dew);
}

// climate-and-supply 4.4: A 1.356 m², U 5.5, 10 K need 74.6 W indoors, 149.2 W outdoors.
TEST_CASE("power of a heater") {
    Part enclosure;
    enclosure.width_mm = 600;
    enclosure.height_mm = 800;
    enclosure.depth_mm = 300;
    enclosure.material = "painted_steel";
    Box box;
    box.site.mounting = "wall";
    box.site.place = "indoor";
    CHECK(heater_need(enclosure, box, {10}, starter_rules()).value == Approx(74.6).margin(0.05));
    box.site.place = "outdoor_shade";
    CHECK(heater_need(enclosure, box, {10}, starter_rules()).value == Approx(149.2).margin(0.05));
}

TEST_CASE("the cheapest heaters of one kind with what switches them") {
    Part small, large, hygrostat;
    small.own_w = 60;
    small.list = Money::whole(50);
    large.own_w = 150;
    large.list = Money::whole(90);
    hygrostat.list = Money::whole(40);
    HeatingParts parts{{&small, &large}, &hygrostat, nullptr};
    const auto one = choose_heating(parts, {55}, true);
    REQUIRE(one);
    CHECK(one->heater == &small);
    CHECK(one->control == &hygrostat);
    const auto two = choose_heating(parts, {120}, false); // 2 × 50 against 1 × 90
    REQUIRE(two);
    CHECK(two->heater == &large);
    CHECK(two->pieces == 1);
    CHECK(choose_heating(parts, {160}, true)->pieces == 3); // 3 × 50 against 2 × 90
    parts.hygrostat = nullptr;
    CHECK_FALSE(choose_heating(parts, {55}, true));
}
