// Cooling parts: what a unit gives in hot air, whether it has its place in the wall, why cheaper
// stages were passed over. Sources: climate-and-supply 4.1; the loss per kelvin is from memory.
#include "pricing/panel/cooling.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "pricing/price_job.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Part unit_of(double watts) {
    Part unit;
    unit.kind = "cooling";
    unit.stage = "cooling_unit";
    unit.cooling_w = watts;
    unit.height_mm = 550;
    return unit;
}

Part enclosure() {
    Part part;
    part.material = "painted_steel";
    part.width_mm = 600;
    part.height_mm = 800;
    part.depth_mm = 300;
    return part;
}

/// Watts that leave with the inside held at the outside air, so that the walls take no part.
double given_at(const Part& unit, double outside_c, double held_c) {
    Box box;
    box.site.mounting = "wall";
    box.site.place = "indoor";
    box.site.ambient_high_c = outside_c;
    Work work;
    const Part body = enclosure();
    const double shed =
        heat_shed_at(body, box, {"cooling_unit", &unit, 1}, {held_c}, starter_rules(), work).value;
    // painted steel 5.5 W/(m²K), 1.356 m²: what comes in through colder walls
    return shed + 5.5 * 1.356 * std::max(0.0, outside_c - held_c);
}

Estimate hot_box(const std::string& more) {
    Work work;
    const PriceBook book = demo_book();
    return price_job(request_of(box_request(
                         R"({"signal": "DI", "count": 8})",
                         R"(, "site": {"ambient_c": [5, 50], "dust": "heavy"}, )"
                         R"("equipment": [{"text": "Drive", "watts": 260, "where": "rail"}])" +
                             more)),
                     book, starter_rules(), work);
}

} // namespace

TEST_CASE("a cooling unit gives less in hot air and with a cold inside") {
    Part unit = unit_of(1000);
    CHECK(given_at(unit, 35, 35) == Approx(1000));
    CHECK(given_at(unit, 30, 40) == Approx(925)); // it holds the outside air, 5 K below 35 °C
    // the row: 1.5 % per kelvin outside above 35 °C and inside below it
    CHECK(given_at(unit, 45, 45) == Approx(850));
    CHECK(given_at(unit, 35, 25) == Approx(850));
    CHECK(given_at(unit, 45, 30) == Approx(1000 * (1 - 0.015 * (10 + 5))));
    unit.cooling_hot_w = 700; // its own figure at 50 °C: 20 W per kelvin
    CHECK(given_at(unit, 50, 50) == Approx(700));
    CHECK(given_at(unit, 40, 40) == Approx(900));
    CHECK(given_at(unit, 110, 110) == Approx(0)); // nothing, not less
}

TEST_CASE("a cooling part must have its place in the wall") {
    Part unit = unit_of(1000);
    CHECK(fits_wall(unit, enclosure()));
    unit.height_mm = 801;
    CHECK_FALSE(fits_wall(unit, enclosure()));
    CHECK(given_at(unit, 40, 40) == 0);
    unit.height_mm = 550;
    unit.width_mm = 601;
    CHECK_FALSE(fits_wall(unit, enclosure()));
    unit.stage = "circulation_fan"; // stands inside
    CHECK(fits_wall(unit, enclosure()));
    // the demo's 1200 W unit is 950 mm high: no box of 800 mm takes it
    const Estimate hot = hot_box(R"(, "choices": {"cooling": "cooling_unit"})");
    REQUIRE(hot.buildable);
    const auto& parts = hot.boxes[0].heat.parts;
    REQUIRE(parts.size() == 1);
    const PriceBook book = demo_book();
    CHECK(*book.find(parts[0].part)->height_mm <= *hot.boxes[0].enclosures[0].height_mm);
}

TEST_CASE("cheaper stages are named with what they lack") {
    const Estimate hot = hot_box("");
    REQUIRE(hot.buildable);
    const HeatResult& heat = hot.boxes[0].heat;
    REQUIRE(heat.stage == "cooling_unit");
    const auto reason = [&](const std::string& stage) {
        const auto found =
            std::find_if(heat.passed_over.begin(), heat.passed_over.end(),
                         [&](const PassedStage& passed) { return passed.stage == stage; });
        return found == heat.passed_over.end() ? std::string("(none)") : found->reason;
    };
    CHECK_THAT(reason("sealed"), Catch::EndsWith("W could leave"));
    CHECK_THAT(reason("circulation_fan"), Catch::EndsWith("W could leave"));
    CHECK(reason("filter_fan") == "dust or corrosion of the place forbid it");
    CHECK_THAT(reason("cooling_unit"), Catch::EndsWith("W could leave")); // a smaller one
    const auto stage =
        std::find_if(hot.basis.begin(), hot.basis.end(), [](const BasisEntry& entry) {
            return entry.figure == "/boxes/0/heat/parts/0/quantity";
        });
    REQUIRE(stage != hot.basis.end());
    CHECK(stage->value == "1");
    for (const PassedStage& passed : heat.passed_over)
        CHECK_THAT(stage->source, Catch::Contains(passed.reason));
    const Estimate cool = [&] {
        Work work;
        const PriceBook book = demo_book();
        return price_job(request_of(box_request(R"({"signal": "DI", "count": 8})")), book,
                         starter_rules(), work);
    }();
    CHECK(cool.boxes[0].heat.passed_over.empty());
}
