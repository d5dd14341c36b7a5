#include "pricing/values/decimal.h"

#include <catch2/catch.hpp>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <limits>
#include <string>

using namespace backplate;

namespace {

constexpr std::int64_t highest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t lowest = std::numeric_limits<std::int64_t>::min();

double read(const std::string& text) {
    double value = 0;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return value;
}

} // namespace

TEST_CASE("decimals are read as written") {
    struct Row {
        const char* text;
        std::int64_t digits;
        int places;
        const char* printed;
    };
    const Row rows[] = {
        {"0", 0, 0, "0"},
        {"12", 12, 0, "12"},
        {"-0.50", -50, 2, "-0.50"},
        {"3.", 3, 0, "3"},
        {"+7.5", 75, 1, "7.5"},
        {"007", 7, 0, "7"},
        {"0.000000001", 1, 9, "0.000000001"},
        {"-0.0", 0, 1, "0.0"},
        {"999999999999999999", 999999999999999999, 0, "999999999999999999"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text);
        const auto decimal = parse_decimal(row.text);
        REQUIRE(decimal);
        CHECK(decimal->digits == row.digits);
        CHECK(decimal->places == row.places);
        CHECK(decimal->text() == row.printed);
    }
}

TEST_CASE("what is no plain decimal is refused") {
    for (const char* text : {"",
                             "-",
                             "+",
                             ".",
                             ".5",
                             "-.5",
                             "1e3",
                             "1E3",
                             " 1",
                             "1 ",
                             "1 000",
                             "1,5",
                             "1.2.3",
                             "1,000",
                             "0x10",
                             "nan",
                             "inf",
                             "--1",
                             "1-",
                             "\u0661",
                             "1234567890123456789",
                             "0.0000000001"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_decimal(text));
    }
}

TEST_CASE("decimals compare by value, not by writing") {
    CHECK(Decimal{120, 1} == Decimal{12, 0});
    CHECK(Decimal{999999999999999999, 0} == Decimal{999999999999999999, 0});
    CHECK_FALSE(Decimal{999999999999999999, 0} == Decimal{999999999999999999, 9});
    CHECK_FALSE(Decimal{1, 9} == Decimal{0, 0});
    CHECK(Decimal{125, 3}.number() == 0.125);
}

TEST_CASE("steps hold the value exactly or not at all") {
    CHECK(to_steps({5, 1}, 4) == 5000);
    CHECK(to_steps({50000, 5}, 4) == 5000);
    CHECK(to_steps({-12345, 4}, 4) == -12345);
    CHECK_FALSE(to_steps({12345, 5}, 4));
    CHECK_FALSE(to_steps({999999999999999999, 0}, 4)); // leaves 64 bits
    CHECK_FALSE(to_steps({-999999999999999999, 0}, 2));
}

TEST_CASE("rounding to steps") {
    struct Row {
        const char* text;
        int places;
        std::int64_t half_away, half_even, up, down;
    };
    const Row rows[] = {
        {"1234.5", 0, 1235, 1234, 1235, 1234},
        {"1235.5", 0, 1236, 1236, 1236, 1235},
        {"-1234.5", 0, -1235, -1234, -1234, -1235},
        {"0.125", 2, 13, 12, 13, 12},
        {"0.1251", 2, 13, 13, 13, 12},
        {"0.1249", 2, 12, 12, 13, 12},
        {"-0.1249", 2, -12, -12, -12, -13},
        {"2.675", 2, 268, 268, 268, 267},
        {"-2.675", 2, -268, -268, -267, -268},
        {"0.5", 0, 1, 0, 1, 0},
        {"-0.5", 0, -1, 0, 0, -1},
        {"1.0", 2, 100, 100, 100, 100},
        {"0.000000001", 4, 0, 0, 1, 0},
        {"-0.000000001", 4, 0, 0, 0, -1},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text, row.places);
        const Decimal value = parse_decimal(row.text).value();
        CHECK(round_to_steps(value, row.places, Rounding::half_away) == row.half_away);
        CHECK(round_to_steps(value, row.places, Rounding::half_even) == row.half_even);
        CHECK(round_to_steps(value, row.places, Rounding::up) == row.up);
        CHECK(round_to_steps(value, row.places, Rounding::down) == row.down);
    }
    CHECK_THROWS_AS(round_to_steps({999999999999999999, 0}, 4, Rounding::up), OverflowError);
}

TEST_CASE("products go over 128 bits and are rounded once") {
    CHECK(multiply_divide(highest, 3, 3, Rounding::half_away) == highest);
    CHECK(multiply_divide(lowest, 7, 7, Rounding::half_away) == lowest);
    CHECK(multiply_divide(1, 1, 3, Rounding::half_away) == 0);
    CHECK(multiply_divide(2, 1, 3, Rounding::half_away) == 1);
    CHECK(multiply_divide(1, 1, -2, Rounding::half_away) == -1);
    CHECK(multiply_divide(-1, 1, -2, Rounding::down) == 0);
    CHECK_THROWS_AS(multiply_divide(highest, 2, 1, Rounding::half_away), OverflowError);
    CHECK_THROWS_AS(multiply_divide(lowest, 2, 1, Rounding::half_away), OverflowError);
    CHECK_THROWS_AS(multiply_divide(lowest, -1, 1, Rounding::half_away), OverflowError);
}

TEST_CASE("rounding neighbours: up and down enclose, halves lie between") {
    for (std::int64_t value = -50; value <= 50; ++value)
        for (std::int64_t divisor = 1; divisor <= 12; ++divisor) {
            const auto up = multiply_divide(value, 1, divisor, Rounding::up);
            const auto down = multiply_divide(value, 1, divisor, Rounding::down);
            const auto away = multiply_divide(value, 1, divisor, Rounding::half_away);
            const auto even = multiply_divide(value, 1, divisor, Rounding::half_even);
            CAPTURE(value, divisor);
            CHECK(up * divisor >= value);
            CHECK(down * divisor <= value);
            CHECK(up - down == (value % divisor == 0 ? 0 : 1));
            CHECK(std::abs(2 * (away * divisor - value)) <= divisor);
            CHECK(std::abs(2 * (even * divisor - value)) <= divisor);
            if (std::abs(2 * (even * divisor - value)) == divisor) CHECK(even % 2 == 0);
        }
}

TEST_CASE("sums and differences stop at 64 bits") {
    CHECK(checked_add(highest - 1, 1) == highest);
    CHECK(checked_subtract(lowest + 1, 1) == lowest);
    CHECK(checked_subtract(-1, lowest) == highest);
    CHECK_THROWS_AS(checked_add(highest, 1), OverflowError);
    CHECK_THROWS_AS(checked_add(lowest, -1), OverflowError);
    CHECK_THROWS_AS(checked_subtract(lowest, 1), OverflowError);
    CHECK_THROWS_AS(checked_subtract(0, lowest), OverflowError);
}

TEST_CASE("spare of ten percent on fifty points is five") {
    // Trap of binary numbers: 50 x 1.10 is 55.00000000000001 in double, which rounds up to 56.
    // Recomputed with exact integers.
    CHECK(multiply_divide(50, 110, 100, Rounding::up) == 55);
    CHECK(multiply_divide(60, 115, 100, Rounding::up) == 69);
    CHECK(multiply_divide(100, 110, 100, Rounding::up) == 110);
    CHECK(std::ceil(50 * 1.10) == 56);
    CHECK(std::ceil(100 * 1.10) == 111);
}

TEST_CASE("steps as text") {
    CHECK(steps_text(0, 2) == "0.00");
    CHECK(steps_text(5, 2) == "0.05");
    CHECK(steps_text(-5, 2) == "-0.05");
    CHECK(steps_text(123456, 2) == "1234.56");
    CHECK(steps_text(-7, 0) == "-7");
    CHECK(steps_text(highest, 4) == "922337203685477.5807");
    CHECK(steps_text(lowest, 4) == "-922337203685477.5808");
    CHECK(steps_text(lowest, 0) == "-9223372036854775808");
}

TEST_CASE("physical values as text") {
    struct Row {
        double value;
        int places;
        const char* text;
    };
    const Row rows[] = {
        {51.335, 2, "51.34"},
        {2.675, 2, "2.68"},
        {-2.675, 2, "-2.68"},
        {1.005, 2, "1.01"},
        {0.125, 2, "0.13"},
        {0.5, 0, "1"},
        {-0.5, 0, "-1"},
        {0.15, 1, "0.2"},
        {0.25, 1, "0.3"},
        {-0.04, 1, "0.0"},
        {-0.0, 1, "0.0"},
        {51.3349, 2, "51.33"},
        {51.33499999, 2, "51.33"},
        {0.1 + 0.2, 1, "0.3"},
        {99.995, 2, "100.00"},
        {1e15, 1, "1000000000000000.0"},
        {1e22, 0, "10000000000000000000000"},
        {8.5e15, 0, "8500000000000000"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.value, row.places);
        CHECK(number_text(row.value, row.places) == row.text);
    }
}

TEST_CASE("the double nearest to a decimal half goes away from zero") {
    int judged = 0;
    for (int places = 0; places <= 4; ++places)
        for (std::int64_t step = 0; step < 4000000; step += step < 3000 ? 1 : 977) {
            const std::string half = steps_text(step * 10 + 5, places + 1);
            if (number_text(read(half), places) != steps_text(step + 1, places)) FAIL(half);
            // one part in ten million below it is no half
            const double below = read(half) * (1 - 1e-12);
            if (number_text(below, places) != steps_text(step, places)) FAIL(half);
            ++judged;
        }
    CHECK(judged > 30000);
}

TEST_CASE("shortest text reads back and has no exponent") {
    for (const double value : {0.1, 1.0 / 3, 12.0, -2.5, 1e-7, 1e20, 123456.789, 5e-324, 1.7e308}) {
        const std::string text = number_text(value);
        CAPTURE(text);
        CHECK(read(text) == value);
        CHECK(text.find('e') == std::string::npos);
    }
    CHECK(number_text(0.1) == "0.1");
    CHECK(number_text(12.0) == "12");
    CHECK(number_text(1e-7) == "0.0000001");
    CHECK(number_text(-0.0) == "0");
}
