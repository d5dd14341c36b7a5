#include "pricing/values/money.h"

#include <catch2/catch.hpp>
#include <charconv>
#include <limits>
#include <string>
#include <vector>

using namespace backplate;

namespace {

Money money(const char* text) { return Money::parse(text).value(); }
Percent percent(const char* text) { return Percent::parse(text).value(); }

constexpr std::int64_t highest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t lowest = std::numeric_limits<std::int64_t>::min();

} // namespace

TEST_CASE("amounts are read to four decimals and no further") {
    CHECK(money("12.5").steps() == 125000);
    CHECK(money("-0.0001").steps() == -1);
    CHECK(money("3").steps() == 30000);
    CHECK(money("1.50000").steps() == 15000); // a needless zero loses nothing
    for (const char* text : {"1.00001", "1,50", "1.5 EUR", "", "1e3", "99999999999999999"}) {
        CAPTURE(text);
        CHECK_FALSE(Money::parse(text));
    }
}

TEST_CASE("percent and hours are exact") {
    CHECK(percent("12.5").steps() == 125000);
    CHECK(percent("12.5").text() == "12.5");
    CHECK(percent("20").text() == "20");
    CHECK(percent("0").text() == "0");
    CHECK(percent("100").text() == "100");
    CHECK(percent("-3.1250").text() == "-3.125");
    CHECK(percent("20").fraction() == 0.2);
    CHECK_FALSE(Percent::parse("0.00001"));
    CHECK(Percent::of({125, 1}) == percent("12.5"));
    CHECK_THROWS_AS(Percent::of({1, 5}), std::invalid_argument);
    CHECK(Percent::whole(5) == percent("5"));
    CHECK(Hours::parse("0.25")->steps() == 250);
    CHECK_FALSE(Hours::parse("0.0005"));
    CHECK(Hours::parse("1.5")->text() == "1.500");
    CHECK((Hours::parse("1.5").value() + Hours::parse("0.125").value()).text() == "1.625");
    CHECK(Hours::parse("0.033")->times(17).text() == "0.561");
    CHECK(Hours::parse("0.033")->number() == 0.033);
}

TEST_CASE("rounding an amount by currency") {
    // ISO 4217 digits: none for the yen, three for the Kuwaiti dinar; halves recomputed by hand
    struct Row {
        const char *amount, *away, *even;
        int digits;
    };
    const Row rows[] = {
        {"1234.5", "1235", "1234", 0},     {"1.2345", "1.235", "1.234", 3},
        {"2.675", "2.68", "2.68", 2},      {"-2.675", "-2.68", "-2.68", 2},
        {"0.125", "0.13", "0.12", 2},      {"-0.125", "-0.13", "-0.12", 2},
        {"1.2345", "1.2345", "1.2345", 4},
    };
    for (const Row& row : rows) {
        CAPTURE(row.amount, row.digits);
        const Money amount = money(row.amount);
        CHECK(amount.rounded(row.digits).text(row.digits) == row.away);
        CHECK(amount.rounded(row.digits, Rounding::half_even).text(row.digits) == row.even);
    }
    // what a binary number does with the same amount: the double 2.675 lies below the half
    char buffer[8];
    const auto end = std::to_chars(buffer, buffer + 8, 2.675, std::chars_format::fixed, 2).ptr;
    CHECK(std::string(buffer, end) == "2.67");
}

TEST_CASE("rounding up to a step") {
    CHECK(money("112014.00").rounded_up_to(money("10")) == money("112020"));
    CHECK(money("112020.00").rounded_up_to(money("10")) == money("112020"));
    CHECK(money("0.01").rounded_up_to(money("100")) == money("100"));
    CHECK(money("1.01").rounded_up_to(money("0.05")) == money("1.05"));
    CHECK(money("-12").rounded_up_to(money("10")) == money("-10"));
}

TEST_CASE("hours at a rate and shares are rounded once") {
    CHECK(money("55").times(Hours::parse("0.333").value(), 2) == money("18.32")); // 18.315
    CHECK(money("55").times(Hours::parse("0.333").value(), 4) == money("18.315"));
    CHECK(money("-55").times(Hours::parse("0.333").value(), 2) == money("-18.32"));
    CHECK(money("55").times(Hours::parse("0.333").value(), 0) == money("18"));
    CHECK(money("0.10").share(percent("5"), 2) == money("0.01")); // 0.005
    CHECK(money("100").share(percent("33.3333"), 2) == money("33.33"));
    CHECK(money("100").share(percent("33.3333"), 4) == money("33.3333"));
    CHECK(money("-0.10").share(percent("5"), 2) == money("-0.01"));
    CHECK(money("0.0189").times(7) == money("0.1323"));
    CHECK(money("1").ratio(1, 3) == money("0.3333"));
    CHECK(money("1").ratio(2, 3) == money("0.6667"));
}

TEST_CASE("amounts as text") {
    CHECK(money("0").text(2) == "0.00");
    CHECK(money("-0.05").text(2) == "-0.05");
    CHECK(money("1234.5").text(2) == "1234.50");
    CHECK(money("1234").text(0) == "1234");
    CHECK(money("7.4").unit_text(2) == "7.40");
    CHECK(money("7.434").unit_text(2) == "7.4340");
    CHECK(money("0.0001").unit_text(2) == "0.0001");
    CHECK(money("12").unit_text(0) == "12");
    CHECK(money("12.5").unit_text(0) == "12.5000");
    CHECK(money("12.5").unit_text(3) == "12.500");
}

TEST_CASE("overflow is an error in every operation") {
    const Money top = Money::of_steps(highest);
    const Money bottom = Money::of_steps(lowest);
    const Money step = Money::of_steps(1);
    CHECK((top - step + step) == top);
    CHECK_THROWS_AS(top + step, OverflowError);
    CHECK_THROWS_AS(bottom - step, OverflowError);
    CHECK_THROWS_AS(step - bottom, OverflowError);
    CHECK_THROWS_AS(-bottom, OverflowError);
    CHECK_THROWS_AS(top.times(2), OverflowError);
    CHECK_THROWS_AS(top.share(percent("101"), 2), OverflowError);
    CHECK_THROWS_AS(top.rounded(0), OverflowError);
    CHECK_THROWS_AS(top.rounded_up_to(Money::whole(1)), OverflowError);
    CHECK_THROWS_AS(top.times(Hours::of_steps(1001), 2), OverflowError);
    CHECK_THROWS_AS(Hours::of_steps(highest).times(2), OverflowError);
    CHECK_THROWS_AS(Hours::of_steps(highest) + Hours::of_steps(1), OverflowError);
}

TEST_CASE("discounts multiply, in either sign and any order") {
    const std::vector<Percent> chain = {percent("9"), percent("21"), percent("15")};
    const auto net = [](Money list, const std::vector<Percent>& steps) {
        return after_discounts(list, steps.data(), steps.data() + steps.size());
    };
    CHECK(net(money("600"), {}) == money("600"));
    CHECK(net(money("600"), {chain[2], chain[0], chain[1]}) == net(money("600"), chain));
    CHECK(net(money("-600"), chain) == -net(money("600"), chain));
    CHECK(net(money("600"), {percent("100")}) == money("0"));
    CHECK(net(money("600"), {percent("-10")}) == money("660")); // a surcharge
    CHECK(net(money("0.0001"), {percent("50")}) == money("0.0001"));
    CHECK(net(money("0.0001"), {percent("50.0001")}) == money("0"));
    // rounded once, not per step: 0.0003 x 0.5 x 0.5 is 0.000075
    CHECK(net(money("0.0003"), {percent("50"), percent("50")}) == money("0.0001"));
    // 999999.9999 x 0.876543^4, worked in exact fractions elsewhere
    const std::vector<Percent> fine(4, percent("12.3457"));
    CHECK(net(money("999999.9999"), fine) == money("590327.3483"));
    const std::vector<Percent> endless(9, percent("12.3457"));
    CHECK_THROWS_AS(net(money("999999.9999"), endless), OverflowError);
}

TEST_CASE("a split adds up, the largest part first") {
    // 100.00 in three: 33.34, 33.33, 33.33 by largest remainder
    CHECK(part_of_split(money("100"), 3, 0, 2) == money("33.34"));
    CHECK(part_of_split(money("100"), 3, 1, 2) == money("33.33"));
    CHECK(part_of_split(money("100"), 3, 2, 2) == money("33.33"));
    for (const char* amount : {"100", "-100", "0", "0.01", "-0.02", "99.99", "-1234.56"})
        for (const int parts : {1, 2, 3, 7, 11}) {
            Money sum;
            for (int i = 0; i < parts; ++i) sum += part_of_split(money(amount), parts, i, 2);
            CAPTURE(amount, parts);
            CHECK(sum == money(amount));
        }
    CHECK(part_of_split(money("100"), 3, 0, 0) == money("34"));
}
