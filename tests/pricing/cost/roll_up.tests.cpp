#include "pricing/cost/roll_up.h"

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
