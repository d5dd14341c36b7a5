#include <catch2/catch.hpp>
#include <vector>

#include "pricing/values/money.h"

using namespace backplate;

// Worked prices of public teaching pages, with the exact types that carry a quotation.
namespace {

Money money(const char* text) { return Money::parse(text).value(); }
Percent percent(const char* text) { return Percent::parse(text).value(); }

Money net(const char* list, const std::vector<const char*>& discounts) {
    std::vector<Percent> chain;
    for (const char* text : discounts) chain.push_back(percent(text));
    return after_discounts(money(list), chain.data(), chain.data() + chain.size());
}

/// cost ÷ (1 − margin)
Money price_at_margin(Money cost, int margin_percent) {
    return cost.ratio(100, 100 - margin_percent).rounded(2);
}

} // namespace

TEST_CASE("discount chain 9, 21, 15 on 600.00") {
    // Textbook summary of credit terms, chapter 7 (docest.com): factor 0.611065, net 366.64
    CHECK(net("600.00", {"9", "21", "15"}) == money("366.639"));
    CHECK(net("600.00", {"9", "21", "15"}).rounded(2) == money("366.64"));
    CHECK(net("100.0000", {"9", "21", "15"}) == money("61.1065"));
}

TEST_CASE("discount chains of a formula page") {
    // couponsanddiscouts.com, chain discount formula
    CHECK(net("600", {"20", "5"}) == money("456"));
    CHECK(money("100") - net("100", {"25", "10"}) == money("32.5"));
    CHECK(net("600", {"25", "10", "5", "2"}) == money("377.055"));
    CHECK(money("600") - net("600", {"25", "10", "5", "2"}) == money("222.945"));
}

TEST_CASE("a unit price is rounded to four decimals, the line once") {
    // recomputed: 7 pieces of 366.6390
    const Money unit = net("600.00", {"9", "21", "15"});
    CHECK(unit.times(7).rounded(2) == money("2566.47"));
    CHECK(unit.rounded(2).times(7) == money("2566.48"));
}

TEST_CASE("margin and markup") {
    // engineeringtoolbox.com (markup and gross profit); jlconline.com (planning for profit)
    const Money cost = money("200000");
    const Money price = cost + cost.share(percent("25"), 2);
    CHECK(price == money("250000"));
    CHECK(price_at_margin(cost, 20) == price);
    CHECK((price - cost).number() / price.number() == Approx(0.20).epsilon(1e-12));
    CHECK((money("1500") - money("1000")).ratio(1000000, 1500 * 10000) == money("33.3333"));
    CHECK(money("100").ratio(15, 85) == money("17.6471"));
    CHECK(money("100").ratio(20, 80) == money("25"));
    // 20 % of 100.00: recomputed
    CHECK(price_at_margin(money("100"), 20) == money("125.00"));
    CHECK(money("100") + money("100").share(percent("20"), 2) == money("120.00"));
}

TEST_CASE("margins used as markup lose the difference") {
    // jlconline.com (three ways to price yourself out of business): production 575,000, overhead
    // 25 % and profit 3.13 % of sales of 800,000; the wrong price is recomputed
    const Money production = money("575000");
    const Money wrong = production + production.share(percent("28.13"), 2);
    CHECK(wrong == money("736747.50"));
    const Money right = production.ratio(100000, 100000 - 28125).rounded(2); // 3.125 unrounded
    CHECK(right == money("800000"));
    CHECK(right - wrong == money("63252.50"));
}

TEST_CASE("a whole price from direct cost to tax") {
    // Formula of a published estimating course (sfjohnsonconsulting.com, module 7):
    // price = direct x (1 + contingency) x (1 + overhead) ÷ (1 − margin); figures recomputed
    Money direct = money("40000") + money("1200");
    direct += money("55").times(Hours::of_steps(200000), 2);
    direct += money("80").times(Hours::of_steps(100000), 2);
    direct += money("80").times(Hours::of_steps(150000), 2);
    direct += money("80").times(Hours::of_steps(50000), 2);
    CHECK(direct == money("76200"));
    const Money contingent = direct + direct.share(percent("5"), 2);
    CHECK(contingent == money("80010"));
    const Money cost = contingent + contingent.share(percent("12"), 2);
    CHECK(cost == money("89611.20"));
    const Money price = price_at_margin(cost, 20);
    CHECK(price == money("112014.00"));
    CHECK(cost + cost.share(percent("20"), 2) == money("107533.44")); // were it a markup
    const Money rounded = price.rounded_up_to(money("10"));
    CHECK(rounded == money("112020"));
    CHECK(rounded + rounded.share(percent("19"), 2) == money("133303.80"));
    CHECK(direct + direct.share(percent("17"), 2) == money("89154.00")); // percents added
    const Money conceded = price - price.share(percent("5"), 2);
    CHECK((conceded - cost).number() / conceded.number() == Approx(0.157895).epsilon(1e-5));
}

TEST_CASE("tax on the total or on each line") {
    // issues 37896 and 36675 of a public accounting project
    const Money gross = money("348.35").times(16);
    const Money exact = gross.share(percent("96"), 4);
    CHECK((exact + exact.share(percent("22"), 4)).rounded(2) == money("6527.80"));
    const Money line = exact.rounded(2);
    CHECK(line + line.share(percent("22"), 2) == money("6527.81"));

    const Money first = money("55.55");
    const Money second = money("11.11");
    const Percent tax = percent("23");
    CHECK((first + second).share(tax, 2) == money("15.33"));
    CHECK(first.share(tax, 2) + second.share(tax, 2) == money("15.34"));
}

TEST_CASE("a printed total is the sum of printed lines") {
    // recomputed: 3 x 0.335, halves away from zero
    Money printed;
    Money exact;
    for (int line = 0; line < 3; ++line) {
        printed += money("0.335").rounded(2);
        exact += money("0.335");
    }
    CHECK(printed == money("1.02"));
    CHECK(exact.rounded(2) == money("1.01"));
}
