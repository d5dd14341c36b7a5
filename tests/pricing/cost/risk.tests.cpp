#include "pricing/cost/risk.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>
#include <vector>

using namespace backplate;

namespace {

constexpr int many = 400000;

// Five lines of a worked panel estimate, base 75,000; moments by formula
// (triangular mean (l + m + h) ÷ 3), independent quantiles by another program's simulation of
// 400,000 draws, fully correlated quantiles exact.
std::vector<RiskLine> five_lines(bool labour) {
    return {{38000, 40000, 46000, labour},
            {9000, 11000, 16000, labour},
            {7000, 8000, 12000, labour},
            {9000, 12000, 21000, labour},
            {3000, 4000, 7000, labour}};
}

} // namespace

TEST_CASE("random numbers follow the published stream") {
    // widely published first outputs of SplitMix64 for the seed 1234567
    const std::uint64_t expected[] = {6457827717110365317u, 3203168211198807973u,
                                      9817491932198370423u, 4593380528125082431u,
                                      16408922859458223821u};
    for (std::uint64_t i = 0; i < 5; ++i) CHECK(random_bits(1234567, i) == expected[i]);
}

TEST_CASE("inverse normal at tabled chances") {
    struct Row {
        double chance, value;
    };
    // standard normal table; the last digits of the tails as printed with the algorithm (AS 241)
    const Row rows[] = {
        {0.5, 0},
        {0.8, 0.8416212335729143},
        {0.9, 1.2815515655446004},
        {0.95, 1.6448536269514722},
        {0.975, 1.959963984540054},
        {0.99, 2.3263478740408408},
        {0.995, 2.5758293035489004},
        {0.999, 3.090232306167813},
        {0.25, -0.6744897501960817},
        {0.001, -3.090232306167813},
        {1e-20, -9.262340089798408},
    };
    for (const Row& row : rows) {
        CAPTURE(row.chance);
        CHECK(normal_quantile(row.chance) == Approx(row.value).epsilon(1e-13).margin(1e-15));
    }
}

TEST_CASE("inverse normal undoes the distribution over its whole range") {
    for (double value = -30; value <= 8; value += 0.01) {
        const double chance = 0.5 * std::erfc(-value / std::sqrt(2.0));
        if (chance >= 1) continue;
        CAPTURE(value);
        // towards 1 the chance itself has fewer digits
        const double tolerance = value > 4 ? 1e-16 / std::exp(-value * value / 2) : 1e-10;
        CHECK(std::abs(normal_quantile(chance) - value) < tolerance * 4 + 1e-12);
    }
}

TEST_CASE("triangular 8, 10, 16") {
    const RiskLine line{8, 10, 16, false};
    // three-point formulas of a project management page (gristprojectmanagement.us); P50 and P80
    // follow from the area of the triangle
    CHECK(triangular_quantile(line, 0.5) == Approx(11.10102).epsilon(1e-6));
    CHECK(triangular_quantile(line, 0.8) == Approx(12.90161).epsilon(1e-6));
    CHECK(triangular_quantile(line, 0) == 8);
    CHECK(triangular_quantile(line, 1) == 16);
    CHECK(triangular_quantile(line, 0.25) == Approx(10));
    double mean = 0;
    double square = 0;
    constexpr int parts = 100000;
    for (int i = 0; i < parts; ++i) {
        const double value = triangular_quantile(line, (i + 0.5) / parts);
        mean += value / parts;
        square += value * value / parts;
    }
    CHECK(mean == Approx(11.33333).epsilon(1e-5));
    CHECK(std::sqrt(square - mean * mean) == Approx(1.69967).epsilon(1e-4));
    const PriceRange range = simulate(std::vector<RiskLine>{line}, 0.3, many, 1);
    CHECK(range.p50 == Approx(11.10102).margin(0.02));
    CHECK(range.p80 == Approx(12.90161).margin(0.02));
}

TEST_CASE("lopsided and sure lines") {
    CHECK(triangular_quantile({5, 5, 5, false}, 0.3) == 5);
    CHECK(triangular_quantile({4, 4, 8, false}, 0) == 4);
    CHECK(triangular_quantile({4, 4, 8, false}, 0.75) == Approx(6));
    CHECK(triangular_quantile({4, 8, 8, false}, 0.25) == Approx(6));
    CHECK(triangular_quantile({4, 8, 8, false}, 1) == 8);
    const PriceRange sure =
        simulate(std::vector<RiskLine>{{100, 100, 100, false}, {50, 50, 50, true}}, 0.3, 1000, 7);
    CHECK(sure.p50 == 150);
    CHECK(sure.p80 == 150);
    const PriceRange none = simulate(std::vector<RiskLine>{}, 0.3, 10, 7);
    CHECK(none.p50 == 0);
    CHECK(none.p80 == 0);
}

TEST_CASE("five independent lines") {
    // tolerance: three times the sampling error of a quantile at 400,000 draws is about 25
    const PriceRange range = simulate(five_lines(false), 0.3, many, 20240601);
    CHECK(range.p50 == Approx(80828).margin(60));
    CHECK(range.p80 == Approx(84122).margin(60));
    // correlation moves labour lines only
    const PriceRange other = simulate(five_lines(false), 0.9, many, 20240601);
    CHECK(other.p80 == range.p80);
    const PriceRange zero = simulate(five_lines(true), 0, many, 20240601);
    CHECK(zero.p80 == range.p80);
}

TEST_CASE("five lines that move together a little") {
    // normal approximation with correlation 0.3 between the lines themselves: 81,000 and 85,371.
    // The sum is skewed to the right and the copula holds 0.3 between the normal factors (0.28
    // to 0.29 between skewed lines), so the simulation lies within 0.6 % of it.
    const PriceRange range = simulate(five_lines(true), 0.3, many, 3);
    CHECK(range.p80 == Approx(85371).epsilon(0.006));
    CHECK(range.p80 > simulate(five_lines(true), 0.0, many, 3).p80 + 800);
    CHECK(range.p80 < simulate(five_lines(true), 1.0, many, 3).p80 - 800);
}

TEST_CASE("five lines that move as one") {
    // exact: the sum of the quantiles
    double p50 = 0;
    double p80 = 0;
    for (const RiskLine& line : five_lines(true)) {
        p50 += triangular_quantile(line, 0.5);
        p80 += triangular_quantile(line, 0.8);
    }
    CHECK(p50 == Approx(79958).margin(1));
    CHECK(p80 == Approx(88059.1).margin(0.1));
    // sampling error of one draw column: 1.4 x 7,651 ÷ √400,000 = 17
    const PriceRange range = simulate(five_lines(true), 1.0, many, 11);
    CHECK(range.p50 == Approx(p50).margin(60));
    CHECK(range.p80 == Approx(p80).margin(60));
}

TEST_CASE("moments of the simulated sum of five lines") {
    // From quantiles only: for a sum near normal, P80 − P50 is about 0.84 standard deviations;
    // exact standard deviation 3,666.67, mean 81,000
    const PriceRange range = simulate(five_lines(false), 0, many, 5);
    CHECK((range.p80 - range.p50) / 0.8416 == Approx(3666.67).epsilon(0.09));
    CHECK(range.p50 == Approx(81000).epsilon(0.003));
}

TEST_CASE("the same seed gives the same range, another seed another") {
    const PriceRange one = simulate(five_lines(true), 0.3, 2000, 1);
    const PriceRange again = simulate(five_lines(true), 0.3, 2000, 1);
    const PriceRange other = simulate(five_lines(true), 0.3, 2000, 2);
    CHECK(one.p50 == again.p50);
    CHECK(one.p80 == again.p80);
    CHECK(one.p80 != other.p80);
    CHECK(other.p80 == Approx(one.p80).epsilon(0.02));
}

TEST_CASE("one draw is both quantiles, fewer are refused") {
    const PriceRange one = simulate(five_lines(true), 0.3, 1, 1);
    CHECK(one.p50 == one.p80);
    CHECK_THROWS_AS(simulate(five_lines(true), 0.3, 0, 1), std::invalid_argument);
    CHECK_THROWS_AS(simulate(five_lines(true), 1.1, 10, 1), std::invalid_argument);
    CHECK_THROWS_AS(simulate(five_lines(true), -0.1, 10, 1), std::invalid_argument);
    CHECK_THROWS_AS(simulate(five_lines(true), std::nan(""), 10, 1), std::invalid_argument);
}
