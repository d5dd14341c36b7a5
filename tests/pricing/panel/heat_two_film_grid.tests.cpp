#include "pricing/panel/heat_two_film.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "tests/pricing/panel/random_boxes.h"

using namespace backplate;

// Rises over a grid of boxes, own output of an independent program that solves the same balance:
// outside 35 °C, sea level, painted steel (0.9) unless said otherwise.
namespace {

struct GridRow {
    double height, width, depth;
    const char* mounting;
    double heat, nominal, optimistic, pessimistic, stirred, bare;
};
// nominal: inside 0.5; optimistic 0.82; pessimistic 0; stirred: inside fan 10 W/(m²K);
// bare: outside 0.3, inside 0.2
const GridRow grid[] = {
    {0.3, 0.3, 0.2, "wall", 20, 15.05, 13.1, 21.81, 10.95, 22.19},
    {0.3, 0.3, 0.2, "wall", 50, 32.93, 28.98, 46.54, 25.47, 47.04},
    {0.4, 0.3, 0.2, "wall", 20, 12.86, 11.16, 18.94, 9.2, 19.22},
    {0.4, 0.3, 0.2, "wall", 50, 28.29, 24.82, 40.32, 21.48, 40.81},
    {0.5, 0.4, 0.2, "wall", 20, 9.66, 8.33, 14.61, 6.74, 14.74},
    {0.5, 0.4, 0.2, "wall", 50, 21.46, 18.73, 31.05, 15.85, 31.46},
    {0.5, 0.4, 0.2, "wall", 100, 38.49, 33.82, 55, 29.81, 55.19},
    {0.6, 0.4, 0.25, "wall", 20, 7.62, 6.52, 11.81, 5.21, 11.84},
    {0.6, 0.4, 0.25, "wall", 50, 17.04, 14.79, 25.06, 12.3, 25.36},
    {0.6, 0.4, 0.25, "wall", 100, 30.77, 26.94, 44.35, 23.27, 44.65},
    {0.6, 0.6, 0.25, "wall", 20, 6.05, 5.15, 9.58, 4.07, 9.54},
    {0.6, 0.6, 0.25, "wall", 50, 13.62, 11.78, 20.35, 9.66, 20.54},
    {0.6, 0.6, 0.25, "wall", 100, 24.77, 21.61, 36, 18.37, 36.31},
    {0.6, 0.6, 0.25, "wall", 200, 44.21, 38.82, 63.81, 34.43, 63.52},
    {0.8, 0.6, 0.3, "wall", 20, 4.59, 3.88, 7.54, 3.02, 7.42},
    {0.8, 0.6, 0.3, "wall", 50, 10.41, 8.94, 15.96, 7.2, 16.02},
    {0.8, 0.6, 0.3, "wall", 100, 19.05, 16.53, 28.18, 13.76, 28.42},
    {0.8, 0.6, 0.3, "wall", 200, 34.3, 30, 49.86, 25.98, 49.91},
    {1, 0.8, 0.3, "wall", 20, 3.35, 2.82, 5.72, 2.16, 5.55},
    {1, 0.8, 0.3, "wall", 50, 7.66, 6.54, 12.1, 5.18, 12.05},
    {1, 0.8, 0.3, "wall", 100, 14.12, 12.18, 21.34, 9.94, 21.46},
    {1, 0.8, 0.3, "wall", 200, 25.65, 22.32, 37.69, 18.88, 37.87},
    {1, 0.8, 0.3, "wall", 400, 45.69, 40.03, 66.73, 35.35, 66.08},
    {1.2, 0.8, 0.4, "wall", 20, 2.55, 2.12, 4.52, 1.62, 4.32},
    {1.2, 0.8, 0.4, "wall", 50, 5.86, 4.96, 9.55, 3.88, 9.41},
    {1.2, 0.8, 0.4, "wall", 100, 10.86, 9.31, 16.82, 7.47, 16.82},
    {1.2, 0.8, 0.4, "wall", 200, 19.86, 17.2, 29.67, 14.26, 29.79},
    {1.2, 0.8, 0.4, "wall", 400, 35.7, 31.16, 52.43, 26.9, 52.24},
    {1.2, 1, 0.4, "wall", 20, 2.23, 1.86, 4.03, 1.41, 3.81},
    {1.2, 1, 0.4, "wall", 50, 5.15, 4.35, 8.5, 3.38, 8.34},
    {1.2, 1, 0.4, "wall", 100, 9.56, 8.17, 14.98, 6.52, 14.94},
    {1.2, 1, 0.4, "wall", 200, 17.55, 15.16, 26.43, 12.48, 26.52},
    {1.2, 1, 0.4, "wall", 400, 31.68, 27.6, 46.69, 23.6, 46.62},
    {1.8, 0.8, 0.4, "free", 20, 1.48, 1.22, 2.82, 0.91, 2.61},
    {1.8, 0.8, 0.4, "free", 50, 3.44, 2.88, 5.92, 2.21, 5.73},
    {1.8, 0.8, 0.4, "free", 100, 6.43, 5.45, 10.37, 4.27, 10.28},
    {1.8, 0.8, 0.4, "free", 200, 11.87, 10.19, 18.2, 8.2, 18.28},
    {1.8, 0.8, 0.4, "free", 400, 21.61, 18.75, 31.99, 15.62, 32.24},
    {2, 0.8, 0.6, "free", 20, 1.16, 0.95, 2.28, 0.7, 2.08},
    {2, 0.8, 0.6, "free", 50, 2.7, 2.25, 4.78, 1.7, 4.57},
    {2, 0.8, 0.6, "free", 100, 5.06, 4.27, 8.37, 3.31, 8.23},
    {2, 0.8, 0.6, "free", 200, 9.38, 8.02, 14.68, 6.37, 14.68},
    {2, 0.8, 0.6, "free", 400, 17.19, 14.85, 25.77, 12.18, 25.98},
    {2, 1.2, 0.6, "free", 20, 0.9, 0.74, 1.84, 0.55, 1.65},
    {2, 1.2, 0.6, "free", 50, 2.12, 1.75, 3.86, 1.32, 3.64},
    {2, 1.2, 0.6, "free", 100, 3.98, 3.34, 6.76, 2.57, 6.58},
    {2, 1.2, 0.6, "free", 200, 7.42, 6.31, 11.85, 4.97, 11.79},
    {2, 1.2, 0.6, "free", 400, 13.67, 11.76, 20.77, 9.53, 20.91},
};

struct SuiteRow {
    const char* mounting;
    double rise;
};
const SuiteRow suite[] = {
    // 1.8 x 0.8 x 0.5 m with 150 W
    {"row_end_free", 10.084309},
    {"row_middle_free", 12.438274},
    {"row_middle_wall", 17.555668},
    {"row_end_wall", 13.084207},
};

double rise(const Surface& surface, double heat_w) {
    Work work;
    return inside_temperature(surface, {35}, {heat_w}, work).value - 35;
}

double film_area(const Surface& s) {
    const std::string& m = s.mounting;
    const bool rear = m.find("wall") != std::string::npos;
    const int sides = m.find("middle") != std::string::npos ? 0
                      : m.find("end") != std::string::npos  ? 1
                                                            : 2;
    const double plan = s.width_m * s.depth_m;
    return s.height_m * (s.width_m * (rear ? 1 : 2) + s.depth_m * sides) +
           (m.find("covered") != std::string::npos ? 0 : 1.10 * plan) + (rear ? 0.85 * plan : 0);
}

} // namespace

TEST_CASE("two-film rises over the grid of boxes") {
    int judged = 0;
    for (const GridRow& row : grid) {
        Surface surface = box_of(row.height, row.width, row.depth, row.mounting);
        CAPTURE(row.height, row.width, row.depth, row.heat);
        const auto agrees = [&](double expected) {
            CHECK(rise(surface, row.heat) ==
                  Approx(expected).margin(0.005 + 0.0004 * expected).epsilon(0));
            ++judged;
        };
        agrees(row.nominal);
        surface.emissivity_in = 0.82;
        agrees(row.optimistic);
        surface.emissivity_in = 0;
        agrees(row.pessimistic);
        surface.emissivity_in = 0.5;
        surface.stirred = true;
        agrees(row.stirred);
        surface.stirred = false;
        surface.emissivity_out = 0.3;
        surface.emissivity_in = 0.2;
        agrees(row.bare);
    }
    CHECK(judged == 48 * 5);
}

TEST_CASE("two-film rises in rows of boxes") {
    for (const SuiteRow& row : suite) {
        CAPTURE(row.mounting);
        CHECK(rise(box_of(1.8, 0.8, 0.5, row.mounting), 150) == Approx(row.rise).epsilon(0.0002));
    }
}

TEST_CASE("closed form at worked values") {
    // own output of an independent program
    CHECK(closed_form_rise(box_of(0.6, 0.4, 0.25, "wall"), {35}, {50}).value ==
          Approx(17.102).epsilon(0.0002));
    CHECK(closed_form_rise(box_of(0.8, 0.6, 0.3, "wall"), {35}, {100}).value ==
          Approx(19.068).epsilon(0.0002));
    CHECK(closed_form_rise(box_of(2.0, 0.8, 0.6, "free"), {35}, {400}).value ==
          Approx(17.075).epsilon(0.0002));
}

TEST_CASE("closed form stays within five percent of the balance inside its range") {
    Spread spread(7);
    double lowest = 1;
    double highest = 1;
    for (int i = 0; i < 400; ++i) {
        const Surface surface =
            box_of(spread.in(0.25, 2.2), spread.in(0.2, 1.2), spread.in(0.12, 0.8),
                   mountings[static_cast<std::size_t>(spread.index(7))]);
        const double heat = spread.in(10.01, 129.9) * film_area(surface);
        const double ratio = closed_form_rise(surface, {35}, {heat}).value / rise(surface, heat);
        lowest = std::min(lowest, ratio);
        highest = std::max(highest, ratio);
    }
    CAPTURE(lowest, highest);
    CHECK(lowest > 0.95);
    CHECK(highest < 1.05);
}

TEST_CASE("closed form follows outside air and altitude") {
    // published corrections are own fits: 20 °C 1.066, 50 °C 0.935, +2.4 % per 1000 m
    for (const double outside : {20.0, 45.0, 50.0})
        for (const double altitude : {0.0, 2000.0}) {
            Surface surface = box_of(0.8, 0.6, 0.3, "wall");
            surface.altitude_m = altitude;
            Work work;
            const double exact =
                inside_temperature(surface, {outside}, {100}, work).value - outside;
            CHECK(closed_form_rise(surface, {outside}, {100}).value == Approx(exact).epsilon(0.05));
        }
}

TEST_CASE("closed form refuses what it was not fitted for") {
    CHECK_THROWS_AS(closed_form_rise(box_of(2.5, 0.6, 0.3, "wall"), {35}, {100}),
                    std::domain_error);
    CHECK_THROWS_AS(closed_form_rise(box_of(0.8, 1.6, 0.3, "wall"), {35}, {100}),
                    std::domain_error);
    CHECK_THROWS_AS(closed_form_rise(box_of(0.8, 0.6, 0.1, "wall"), {35}, {100}),
                    std::domain_error);
    CHECK_THROWS_AS(closed_form_rise(box_of(0.8, 0.6, 0.3, "wall"), {35}, {1}), std::domain_error);
    CHECK_THROWS_AS(closed_form_rise(box_of(0.8, 0.6, 0.3, "wall"), {35}, {500}),
                    std::domain_error);
}
