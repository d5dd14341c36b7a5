#include "pricing/values/units.h"

#include <catch2/catch.hpp>

using namespace backplate;

TEST_CASE("limits go down and needs go up at the border to integers") {
    struct Row {
        double value, step;
        long long limit, need;
    };
    const Row rows[] = {
        {12.3456, 0.001, 12345, 12346},
        {12.345, 0.001, 12345, 12345},
        {0.1 + 0.2, 0.1, 3, 3}, // noise of double arithmetic does not count
        {0.3 - 1e-12, 0.1, 3, 3},
        {0.29, 0.1, 2, 3},
        {0, 0.1, 0, 0},
        {-0.25, 0.1, -3, -2},
        {7, 1, 7, 7},
        {7.00001, 1, 7, 8},
    };
    for (const Row& row : rows) {
        CAPTURE(row.value, row.step);
        CHECK(limit_in(row.value, row.step) == row.limit);
        CHECK(need_in(row.value, row.step) == row.need);
    }
}

TEST_CASE("quantities add, scale and compare within their unit") {
    Watts heat = Watts{10} + Watts{2.5} - Watts{0.5};
    CHECK(heat.value == 12);
    heat += Watts{3};
    CHECK(heat.value == 15);
    CHECK((heat * 2).value == 30);
    CHECK((2 * heat).value == 30);
    CHECK((heat / 5).value == 3);
    CHECK(Watts{1} < Watts{2});
    CHECK(Celsius{40} == Celsius{40});
}
