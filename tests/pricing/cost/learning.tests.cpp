#include "pricing/cost/learning.h"

#include <catch2/catch.hpp>

using namespace backplate;

namespace {

using Theory = LearningCurve::Theory;

struct UnitCase {
    int number;
    double hours;
};

} // namespace

// LC1: published table of a course text (Learning Curves, Ch. 4A; coursehero.com 6335478): unit
// theory, 80 %, first unit 10 h; printed to four decimals.
TEST_CASE("unit theory against a published table") {
    const LearningCurve curve(Theory::unit, 0.80);
    constexpr UnitCase units[] = {{1, 10}, {2, 8.0}, {3, 7.0210}, {4, 6.4}, {10, 4.7651}};
    for (const UnitCase& row : units) {
        CAPTURE(row.number);
        CHECK(10 * curve.unit(row.number) == Approx(row.hours).margin(6e-5));
    }
    constexpr UnitCase sums[] = {{1, 10}, {4, 31.421}, {10, 63.1537}, {100, 326.5081}};
    for (const UnitCase& row : sums) {
        CAPTURE(row.number);
        CHECK(10 * curve.total(row.number) == Approx(row.hours).margin(6e-4));
    }
}

// LC2: published page (flipbuilder.com bmcx/vksq page 330): cumulative average, 80 %, first unit
// 100 h. The page prints 254.76 for the last increment; its own average of 30.72 × 8 is 245.76.
TEST_CASE("cumulative-average theory against a published table") {
    const LearningCurve curve(Theory::cumulative_average, 0.80);
    constexpr UnitCase totals[] = {{1, 100}, {2, 160}, {4, 256}, {8, 409.6}, {16, 655.36}};
    for (const UnitCase& row : totals) {
        CAPTURE(row.number);
        CHECK(100 * curve.total(row.number) == Approx(row.hours).margin(1e-9));
    }
    CHECK(100 * (curve.total(16) - curve.total(8)) == Approx(245.76).margin(1e-9));
    CHECK(100 * curve.unit(2) == Approx(60).margin(1e-9));
}

// LC3: published page (gristprojectmanagement.us, k-dse): unit theory, 75 %, first unit 812 h,
// printed 34,170 h and 137 h; recomputed 82.0958, 34171.67, 136.69.
TEST_CASE("a long run against a published case") {
    const LearningCurve curve(Theory::unit, 0.75);
    CHECK(812 * curve.unit(250) == Approx(82.0958).margin(5e-5));
    CHECK(812 * curve.total(250) == Approx(34171.67).margin(5e-3));
    CHECK(812 * curve.total(250) / 250 == Approx(136.69).margin(5e-3));
}

struct SavingCase {
    double slope;
    int units;
    double percent;
};

// LC4: computed from the unit formula (trade-practice 2.5), percent of so many single units.
TEST_CASE("saving of a batch") {
    constexpr SavingCase rows[] = {
        {0.90, 2, 5.0},   {0.90, 3, 8.5}, {0.90, 4, 11.1}, {0.90, 6, 15.0}, {0.90, 8, 17.8},
        {0.90, 12, 21.9}, {0.85, 2, 7.5}, {0.85, 4, 16.4}, {0.85, 6, 21.9}, {0.85, 8, 25.8},
        {0.85, 12, 31.3}, {0.95, 2, 2.5}, {0.95, 4, 5.6},  {0.95, 6, 7.7},  {0.95, 8, 9.2}};
    int judged = 0;
    for (const SavingCase& row : rows) {
        CAPTURE(row.slope, row.units);
        const LearningCurve curve(Theory::unit, row.slope);
        CHECK(100 * (1 - curve.total(row.units) / row.units) == Approx(row.percent).margin(0.0501));
        ++judged;
    }
    CHECK(judged == 15);
    // six at 90 %: the two theories differ, 15.0 against 23.8 % (trade-practice 2.5)
    const LearningCurve wright(Theory::cumulative_average, 0.90);
    CHECK(100 * (1 - wright.total(6) / 6) == Approx(23.8).margin(0.0501));
}

TEST_CASE("no curve, one unit, no unit") {
    CHECK(LearningCurve::none().total(7) == Approx(7));
    CHECK(LearningCurve(Theory::unit, 0.9).total_millionths(1) == 1000000);
    CHECK(LearningCurve(Theory::cumulative_average, 0.9).total_millionths(1) == 1000000);
    CHECK(LearningCurve(Theory::cumulative_average, 0.9).total(0) == 0);
    CHECK(LearningCurve::of(LearningRules{}).total(3) == Approx(3));
    CHECK_THROWS_AS(LearningCurve(Theory::unit, 0), std::invalid_argument);
    CHECK_THROWS_AS(LearningCurve(Theory::unit, 1.01), std::invalid_argument);
}
