#include "pricing/cost/roll_up.h"

#include <array>
#include <catch2/catch.hpp>

#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

Money euros(const char* text) { return *Money::parse(text); }

/// Rules and terms of the published check PR1 (trade-practice 4.2): freight 1200 on 40000 = 3 %,
/// contingency 5 %, overhead 12 %, margin 20 % of the price, rounded up to 10, tax 19 %.
struct Pr1 {
    RuleBook rules = starter_rules();
    BidRequest request;
    std::vector<BillLine> bill;
    std::vector<LabourLine> labour;

    Pr1() {
        rules.policy.freight_percent.value = {3, 0};
        rules.policy.overhead.value = {12, 0};
        rules.policy.round_up_to.value = {10, 0};
        request.commercial.margin = Percent::whole(20);
        request.commercial.contingency = Percent::whole(5);
        request.commercial.tax = Percent::whole(19);
        BillLine line;
        line.line_all = Money::whole(40000);
        bill.push_back(line);
        add_hours("shop", 200, 55);
        add_hours("engineering", 100, 80);
        add_hours("software", 150, 80);
        add_hours("test", 50, 80);
    }
    PriceResult priced() const { return roll_up(bill, labour, request, rules); }

private:
    void add_hours(const char* work_class, int hours, int rate) {
        LabourLine line;
        line.work_class = work_class;
        line.activity = work_class;
        line.hours = Hours::of_steps(hours * 1000);
        line.cost = Money::whole(hours * rate);
        line.low_cost = hours * rate * 0.7;
        line.high_cost = hours * rate * 1.6;
        labour.push_back(line);
    }
};

} // namespace

TEST_CASE("published price roll-up to the cent") {
    const PriceResult price = Pr1().priced();
    CHECK(price.material == euros("40000"));
    CHECK(price.freight == euros("1200"));
    CHECK(price.labour == euros("35000"));
    CHECK(price.direct == euros("76200"));
    CHECK(price.contingency == euros("3810")); // 80010.00 with it
    CHECK(price.overhead == euros("9601.20"));
    CHECK(price.cost == euros("89611.20"));
    CHECK(price.cost > euros("89154.00"));    // percentages compound, they do not add
    CHECK(price.margin == euros("22402.80")); // 112014.00 with it
    CHECK(price.rounding == euros("6"));
    CHECK(price.price == euros("112020"));
    REQUIRE(price.tax);
    CHECK(price.price + *price.tax == euros("133303.80"));
}

// PR1: additive percentages give 76200 × 1.17 = 89154.00 against 89611.20 compound.
TEST_CASE("additive order of the percentages") {
    Pr1 job;
    job.rules.policy.order = "additive";
    const PriceResult price = job.priced();
    CHECK(price.contingency == euros("3810"));
    CHECK(price.overhead == euros("9144"));
    CHECK(price.cost == euros("89154.00"));
}

// Styles of overhead: trade-practice 4.2 (E12b); figures by hand.
TEST_CASE("overhead per hour and by class") {
    Pr1 job;
    Rule row;
    row.value = {1750, 2};
    job.rules.policy.overhead_style = "per_hour";
    job.rules.policy.overhead_per_hour = row;
    CHECK(job.priced().overhead == euros("8750")); // 500 h × 17.50
    job.rules.policy.overhead_style = "by_class";
    const auto percent = [&](int value) {
        Rule rule;
        rule.value = {value, 0};
        return rule;
    };
    job.rules.policy.overhead_material = percent(5);
    job.rules.policy.overhead_labour = percent(20);
    job.rules.policy.overhead_subcontract = percent(3);
    // (41200 × 5 % + 35000 × 20 %) × 1.05 = 9060 × 1.05
    CHECK(job.priced().overhead == euros("9513"));
    job.rules.policy.order = "additive";
    CHECK(job.priced().overhead == euros("9060"));
    BillLine bought;
    bought.role = "subcontract";
    bought.charge = "charges/carriage";
    bought.line_all = Money::whole(1000);
    job.bill.push_back(bought);
    const PriceResult price = job.priced();
    CHECK(price.freight == euros("1200")); // charges carry none
    CHECK(price.direct == euros("77200"));
    CHECK(price.overhead == euros("9090"));
    CHECK(price.cost == price.direct + price.contingency + price.overhead);
}

// The classes' shares of direct cost share the cost; margins of price on each; by hand.
TEST_CASE("margin by class") {
    Pr1 job;
    job.rules.policy.margin_style = "by_class";
    const auto percent = [&](int value) {
        Rule rule;
        rule.value = {value, 0};
        return rule;
    };
    job.rules.policy.margin_material = percent(20);
    job.rules.policy.margin_labour = percent(20);
    job.rules.policy.margin_subcontract = percent(20);
    CHECK(job.priced().margin == euros("22402.80")); // all alike: as one margin
    job.rules.policy.margin_labour = percent(50);
    // cost 89611.20: material 41200 ÷ 76200 = 48451.20 → 12112.80, labour 41160.00 → 41160.00
    CHECK(job.priced().margin == euros("53272.80"));
    CHECK(job.priced().base > euros("106680"));
    job.request.commercial.margin.reset();
    job.request.commercial.markup = Percent::whole(20); // a stated markup goes before
    CHECK(job.priced().margin == euros("17922.24"));
}

// RD1, RD2: public issue threads on tax rounding (odoo 37896, 36675).
TEST_CASE("tax rounded on the total or per line") {
    const Money lines[] = {euros("55.55"), euros("11.11")};
    CHECK(tax_of(lines, Percent::whole(23), false, 2) == euros("15.33"));
    CHECK(tax_of(lines, Percent::whole(23), true, 2) == euros("15.34"));
    // 16 lines of 348.35 less 4 %: net 5350.66 in all, 22 % on it gives 6527.81 (line of 16) or
    // on the unrounded 5350.656 gives 6527.80
    const Money net = euros("5350.656");
    CHECK(net.share(Percent::whole(22), 4) + net == euros("6527.8003"));
    CHECK((net + net.share(Percent::whole(22), 4)).rounded(2) == euros("6527.80"));
    CHECK(net.rounded(2) + tax_of(std::array{net.rounded(2)}, Percent::whole(22), true, 2) ==
          euros("6527.81"));
}

// MM2: sales 800,000, production 575,000, overhead 25 % and profit 3.13 % of sales
// (jlconline.com, three ways to price yourself out of business; result computed). Right: cost
// divided by what is left of the price; wrong: both percentages put on cost.
TEST_CASE("percentages of sales are no mark-up") {
    Pr1 job;
    job.labour.clear();
    job.bill.front().line_all = Money::whole(575000);
    job.rules.policy.freight_percent.value = {0, 0};
    job.rules.policy.overhead.value = {0, 0};
    job.request.commercial.contingency = Percent{};
    job.request.commercial.margin = *Percent::parse("28.125"); // 25 % and 3.125 %: exactly 800,000
    CHECK(job.priced().price == euros("800000"));
    job.request.commercial.margin.reset();
    job.request.commercial.markup = *Percent::parse("28.13");
    const PriceResult wrong = job.priced();
    CHECK(wrong.cost + wrong.margin == euros("736747.50"));
}

TEST_CASE("markup instead of margin") {
    Pr1 job;
    job.request.commercial.margin.reset();
    job.request.commercial.markup = Percent::whole(20);
    const PriceResult price = job.priced();
    CHECK(price.cost + price.margin == euros("107533.44"));
    CHECK(price.price == euros("107540"));
}

TEST_CASE("a concession comes off before rounding up") {
    Pr1 job;
    job.request.commercial.concession = Percent::whole(5);
    const PriceResult price = job.priced();
    CHECK(price.concession == euros("5600.70"));
    CHECK(price.price == euros("106420")); // 106413.30
    // Published: 15.7895 % margin is left of 20 % after 5 %.
    const double before = (price.cost + price.margin - price.concession).number();
    CHECK(1 - price.cost.number() / before == Approx(0.157895).margin(1e-6));
}

TEST_CASE("lines of the price add up and the price is a multiple of the step") {
    Draws draws(53);
    int judged = 0;
    for (int i = 0; i < 100; ++i, ++judged) {
        Pr1 job;
        job.rules.draws->value = {10, 0};
        job.bill.front().line_all = Money::of_steps(draws.between(1, 99999999) * 100ll);
        job.request.commercial.margin = Percent::of_steps(draws.between(0, 600000));
        job.request.commercial.contingency = Percent::of_steps(draws.between(0, 200000));
        job.request.commercial.concession = Percent::of_steps(draws.between(0, 100000));
        const PriceResult price = job.priced();
        CHECK(price.direct == price.material + price.freight + price.labour);
        CHECK(price.cost == price.direct + price.contingency + price.overhead);
        CHECK(price.price == price.cost + price.margin - price.concession + price.rounding);
        CHECK(price.price.steps() % 100000 == 0);
        CHECK(price.rounding >= Money{});
        CHECK(price.rounding < euros("10"));
    }
    CHECK(judged == 100);
}

TEST_CASE("the range rises with its lines") {
    Pr1 job;
    const PriceResult price = job.priced();
    CHECK(price.p50 < price.p80);
    CHECK(price.p50 > price.base); // the lines lean upwards
    // 76200 × 1.12 ÷ 0.8 without contingency, own reading of trade-practice 4.5.
    CHECK(price.base == euros("106680"));
    Pr1 wider;
    for (LabourLine& line : wider.labour) line.high_cost *= 1.5;
    const PriceResult more = wider.priced();
    CHECK(more.p50 > price.p50);
    CHECK(more.p80 > price.p80);
    CHECK(more.base == price.base);
    CHECK(job.priced().p80 == price.p80);
}
