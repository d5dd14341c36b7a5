#include "pricing/panel/heat_surface.h"

#include <catch2/catch.hpp>
#include <stdexcept>
#include <string>

#include "tests/pricing/panel/random_boxes.h"

using namespace backplate;

namespace {

/// The b factors behind the closed forms (climate-and-supply 1.1), as the starter rows have them.
constexpr FaceFactors factors{1.4, 0.7, 0.9, 0.5, 0};

// Closed forms as printed in public handbook pages on cabinet heating and cooling that cite
// VDE 0660 part 500; b factors recalled from memory and proven equal to these forms.
double closed_form(const std::string& mounting, double h, double w, double d) {
    if (mounting == "free") return 1.8 * h * (w + d) + 1.4 * w * d;
    if (mounting == "wall") return 1.4 * w * (h + d) + 1.8 * d * h;
    if (mounting == "row_end_free") return 1.4 * d * (h + w) + 1.8 * w * h;
    if (mounting == "row_end_wall") return 1.4 * h * (w + d) + 1.4 * w * d;
    if (mounting == "row_middle_free") return 1.8 * w * h + 1.4 * w * d + d * h;
    if (mounting == "row_middle_wall") return 1.4 * w * (h + d) + d * h;
    return 1.4 * w * h + 0.7 * w * d + d * h; // row_middle_wall_covered
}

} // namespace

TEST_CASE("effective surface equals the published examples") {
    struct Row {
        double height, width, depth, expected;
        const char* source;
    };
    const Row rows[] = {
        {2.0, 0.8, 0.6, 5.712, "handbook page on cabinet cooling citing VDE 0660 part 500"},
        {2.0, 0.6, 0.5, 4.38, "engineering guide of a drive citing VDE 0660-500"},
    };
    for (const Row& row : rows) {
        INFO(row.source);
        CHECK(effective_surface(box_of(row.height, row.width, row.depth, "free"), factors).value ==
              Approx(row.expected).epsilon(1e-9));
    }
}

TEST_CASE("effective surface equals the seven closed forms for every size") {
    int judged = 0;
    for (const std::string mounting : mountings)
        for (double height = 0.3; height < 2.3; height += 0.37)
            for (double width = 0.2; width < 1.3; width += 0.23)
                for (double depth = 0.12; depth < 0.9; depth += 0.19) {
                    const double found =
                        effective_surface(box_of(height, width, depth, mounting), factors).value;
                    CAPTURE(mounting, height, width, depth);
                    CHECK(found == Approx(closed_form(mounting, height, width, depth)));
                    const double free =
                        effective_surface(box_of(height, width, depth, "free"), factors).value;
                    CHECK(free >= found);
                    ++judged;
                }
    CHECK(judged >= 7 * 6 * 5 * 5);
}

TEST_CASE("an unknown mounting is refused by name") {
    CHECK_THROWS_AS(effective_surface(box_of(1, 1, 1, "ceiling"), factors), std::invalid_argument);
    CHECK_THROWS_WITH(covered_faces("ceiling"), Catch::Contains("ceiling"));
    CHECK_THROWS_AS(covered_faces(""), std::invalid_argument);
}

TEST_CASE("the floor counts only where the box hangs on a wall") {
    for (const std::string mounting : mountings) {
        CAPTURE(mounting);
        CHECK(covered_faces(mounting).floor_counts == (mounting.find("wall") != std::string::npos));
        CHECK(covered_faces(mounting).floor_counts == covered_faces(mounting).rear);
    }
}

TEST_CASE("surface rule gives the published rises") {
    // 900 W chain of a drive guide citing VDE 0660-500: 4.4 m² at 5.5 W/(m²K), 242 W, 10 K
    CHECK(surface_rule_rise({242}, 5.5, {4.4}).value == Approx(10).epsilon(1e-9));
    // natural-cooling article: 500 W at 15 K need 6.06 m²
    CHECK(surface_rule_rise({500}, 5.5, {6.06}).value == Approx(15).epsilon(0.001));
    CHECK(surface_rule_rise({0}, 4, {1.356}).value == 0);
    // low U is the safe side of a rise
    CHECK(surface_rule_rise({100}, 4, {1.356}) > surface_rule_rise({100}, 5.5, {1.356}));
}

TEST_CASE("fan constant") {
    struct Row {
        double altitude, air, expected, tolerance;
        const char* source;
    };
    const Row rows[] = {
        {0, 32.4, 3.10, 0.002, "usual printed constant, sea level"},
        {0, 20, 3.0, 0.03, "fan maker's formula page prints 3.0"},
        {0, 20, 2.975, 0.0005, "own output of an independent program"},
        {0, 25, 3.026, 0.0005, "own output of an independent program"},
        {0, 30, 3.076, 0.0005, "own output of an independent program"},
        {0, 35, 3.127, 0.0005, "own output of an independent program"},
        {0, 40, 3.178, 0.0005, "own output of an independent program"},
        {100, 32.4, 3.138, 0.0005, "own output of an independent program"},
        {250, 32.4, 3.2, 0.01, "printed step, band edge from memory"},
        {500, 32.4, 3.3, 0.01, "printed step, band edge from memory"},
        {750, 32.4, 3.4, 0.01, "printed step, band edge from memory"},
        {1000, 32.4, 3.5, 0.01, "printed step, band edge from memory"},
        {1500, 32.4, 3.7157, 0.0005, "own output of an independent program"},
        {2000, 32.4, 3.9522, 0.0005, "own output of an independent program"},
        {3000, 32.4, 4.4814, 0.0005, "own output of an independent program"},
    };
    for (const Row& row : rows) {
        INFO(row.source);
        CAPTURE(row.altitude, row.air);
        CHECK(fan_constant(row.altitude, {row.air}) ==
              Approx(row.expected).margin(row.tolerance).epsilon(0));
    }
}

TEST_CASE("air flow grows with falling pressure alone") {
    for (const double altitude : {250.0, 1000.0, 2000.0, 4000.0}) {
        const double ratio = fan_constant(altitude, {40}) / fan_constant(0, {40});
        CHECK(ratio == Approx(pressure_at(0) / pressure_at(altitude)).epsilon(1e-12));
    }
    // 340 W at 15 K and 1.19 kg/m³ need 39.5 cubic feet a minute (published fan article,
    // 1.699 m³/h each): the density belongs to air of 22.9 °C at sea level.
    const double flow = fan_constant(0, {22.9}) * 340 / 15 / 1.69901;
    CHECK(flow == Approx(39.5).epsilon(0.02));
}

// climate-and-supply 2 (worked.json solar_simple_0.3, solar_simple_0.7): own computation there.
TEST_CASE("the simple rule for the sun") {
    Surface surface = box_of(0.8, 0.6, 0.3, "wall");
    CHECK(sunlit_faces(surface).projected_m2() == Approx(0.56604).epsilon(1e-4));
    surface.sun_w_m2 = 300;
    CHECK(sun_rise(surface, 12).value == Approx(10.72).epsilon(0.002));
    surface.sun_w_m2 = 700;
    CHECK(sun_rise(surface, 12).value == Approx(25.01).epsilon(0.002));
    surface.sun_w_m2 = 0;
    CHECK(sun_rise(surface, 12).value == 0);
}

// The closed forms of the positions in a row; the sum over its ends and middles is ours.
TEST_CASE("enclosures side by side shed as the ends and middles of a row") {
    struct Row {
        const char *whole, *left, *middle, *right;
    };
    const Row rows[] = {
        {"free", "row_end_free", "row_middle_free", "row_end_free"},
        {"wall", "row_end_wall", "row_middle_wall", "row_end_wall"},
        {"row_end_free", "row_middle_free", "row_middle_free", "row_end_free"},
        {"row_end_wall", "row_middle_wall", "row_middle_wall", "row_end_wall"},
        {"row_middle_free", "row_middle_free", "row_middle_free", "row_middle_free"},
        {"row_middle_wall_covered", "row_middle_wall_covered", "row_middle_wall_covered",
         "row_middle_wall_covered"},
    };
    for (const Row& row : rows)
        for (int pieces = 2; pieces <= 4; ++pieces) {
            CAPTURE(row.whole, pieces);
            Surface suite = box_of(2.0, 0.8, 0.6, row.whole);
            suite.enclosures = pieces;
            const auto forms = [&](const char* mounting) {
                return closed_form(mounting, 2.0, 0.8, 0.6);
            };
            CHECK(effective_surface(suite, factors).value ==
                  Approx(forms(row.left) + (pieces - 2) * forms(row.middle) + forms(row.right)));
            Work work;
            const auto shed = [&](const char* mounting) {
                return heat_shed(box_of(2.0, 0.8, 0.6, mounting), {35}, {50}, work).value;
            };
            CHECK(heat_shed(suite, {35}, {50}, work).value ==
                  Approx(shed(row.left) + (pieces - 2) * shed(row.middle) + shed(row.right)));
        }
}
