#include "pricing/cost/compare.h"

#include <catch2/catch.hpp>
#include <iostream>
#include <random>
#include <stdexcept>

using namespace backplate;

namespace {

Money money(const char* text) { return *Money::parse(text); }

PricedLine line(const char* item, std::int64_t quantity, const char* unit, const char* amount) {
    return {"CP1", item, item, quantity, money(unit), money(amount)};
}

/// A costed job whose price is the sum of its lines.
PricedJob job_of(std::vector<PricedLine> bill, std::vector<PricedLine> labour = {}) {
    PricedJob job;
    job.currency = "EUR";
    job.bill = std::move(bill);
    job.labour = std::move(labour);
    for (const auto* lines : {&job.bill, &job.labour})
        for (const PricedLine& each : *lines) job.price += each.amount;
    return job;
}

const ComparedLine& only(const Comparison& comparison) {
    REQUIRE(comparison.bill.size() == 1);
    return comparison.bill.front();
}

/// Random jobs out of few articles, so that most of them meet in a pair.
class Jobs {
public:
    explicit Jobs(std::uint32_t seed) : random_(seed) {}

    PricedJob next() {
        PricedJob job;
        job.currency = "EUR";
        job.digits = digits_;
        fill(job.bill, "part ", 12);
        fill(job.labour, "activity ", 6);
        for (const auto* lines : {&job.bill, &job.labour})
            for (const PricedLine& each : *lines) job.price += each.amount;
        for (Money* step :
             {&job.freight, &job.contingency, &job.overhead, &job.margin, &job.rounding})
            job.price += * step = amount();
        job.concession = amount();
        job.price = job.price - job.concession;
        return job;
    }
    void digits(int digits) { digits_ = digits; }
    int below(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }

private:
    Money amount() { return Money::of_steps(below(2'000'000'000)).rounded(digits_); }
    void fill(std::vector<PricedLine>& lines, const char* name, int kinds) {
        const int count = below(10);
        for (int i = 0; i < count; ++i) {
            const std::string item = name + std::to_string(below(kinds));
            const std::int64_t quantity = below(40);
            std::optional<Money> unit;
            if (below(5) > 0) unit = Money::of_steps(3333 * below(5));
            const Money sum = unit ? unit->times(quantity).rounded(digits_) : amount();
            lines.push_back({below(2) ? "CP1" : "CP2", item, item, quantity, unit, sum});
        }
    }
    std::mt19937 random_;
    int digits_ = 2;
};

std::size_t unchanged(const std::vector<PricedLine>& before, const std::vector<PricedLine>& after) {
    return compare(job_of(before), job_of(after)).bill.size();
}

} // namespace

TEST_CASE("a line that stays is not told") {
    CHECK(unchanged({line("A", 2, "3.00", "6.00")}, {line("A", 2, "3.00", "6.00")}) == 0);
}

TEST_CASE("gone and new lines count by quantity") {
    const auto gone = compare(job_of({line("A", 2, "3.00", "6.00")}), job_of({}));
    CHECK(only(gone).change == LineChange::gone);
    CHECK(only(gone).by_quantity == money("-6.00"));
    CHECK(only(gone).quantity_before == 2);
    CHECK(only(gone).quantity_after == 0);
    const auto added = compare(job_of({}), job_of({line("A", 2, "3.00", "6.00")}));
    CHECK(only(added).change == LineChange::added);
    CHECK(only(added).by_quantity == money("6.00"));
    CHECK(only(added).by_price == Money{});
}

TEST_CASE("more pieces, another price, and both") {
    const PricedJob two = job_of({line("A", 2, "3.00", "6.00")});
    const auto more = compare(two, job_of({line("A", 5, "3.00", "15.00")}));
    CHECK(only(more).change == LineChange::quantity);
    CHECK(only(more).by_quantity == money("9.00"));
    const auto dearer = compare(two, job_of({line("A", 2, "3.50", "7.00")}));
    CHECK(only(dearer).change == LineChange::price);
    CHECK(only(dearer).by_price == money("1.00"));
    const auto both = compare(two, job_of({line("A", 5, "3.50", "17.50")}));
    CHECK(only(both).change == LineChange::quantity_and_price);
    CHECK(only(both).by_quantity == money("9.00")); // 3 pieces more at the earlier 3.00
    CHECK(only(both).by_price == money("2.50"));    // 0.50 more on 5 pieces
}

TEST_CASE("rounding of the line never makes a change of price out of one of quantity") {
    const auto more =
        compare(job_of({line("A", 1, "0.3333", "0.33")}), job_of({line("A", 3, "0.3333", "1.00")}));
    CHECK(only(more).change == LineChange::quantity);
    CHECK(only(more).by_quantity == money("0.67"));
    CHECK(only(more).by_price == Money{});
}

TEST_CASE("repeated lines meet in their order, other boxes do not") {
    const auto lines =
        compare(job_of({line("A", 1, "1.00", "1.00"), line("A", 1, "2.00", "2.00")}),
                job_of({line("A", 1, "1.00", "1.00"), line("A", 1, "5.00", "5.00")}));
    CHECK(only(lines).before == money("2.00"));
    CHECK(only(lines).after == money("5.00"));
    PricedLine elsewhere = line("A", 1, "1.00", "1.00");
    elsewhere.box = "CP2";
    CHECK(compare(job_of({line("A", 1, "1.00", "1.00")}), job_of({elsewhere})).bill.size() == 2);
}

TEST_CASE("every part of the price chain has its line") {
    PricedJob before = job_of({}), after = job_of({});
    after.concession = money("7.00");
    after.margin = money("2.00");
    after.price = money("-5.00");
    REQUIRE(adds_up(after));
    const auto chain = compare(before, after).chain;
    REQUIRE(chain.size() == 6);
    CHECK(chain[3].difference() == money("2.00"));
    CHECK(std::string(chain[4].name) == "concession");
    CHECK(chain[4].difference() == money("-7.00"));
}

TEST_CASE("two currencies are not compared") {
    PricedJob other = job_of({});
    other.currency = "USD";
    CHECK_THROWS_AS(compare(job_of({}), other), std::invalid_argument);
}

TEST_CASE("the lines of random pairs add up to the difference of the prices") {
    Jobs jobs(20261124);
    int pairs = 0, lines = 0, kinds[5] = {};
    for (; pairs < 20000; ++pairs) {
        jobs.digits(jobs.below(4) == 0 ? 0 : 2);
        const PricedJob before = jobs.next(), after = jobs.next();
        REQUIRE(adds_up(before));
        const Comparison comparison = compare(before, after);
        REQUIRE(comparison.sum() == after.price - before.price);
        for (const auto* changed : {&comparison.bill, &comparison.labour})
            for (const ComparedLine& each : *changed) {
                REQUIRE(each.before + each.by_quantity + each.by_price == each.after);
                ++kinds[static_cast<int>(each.change)];
                ++lines;
            }
        const Comparison none = compare(after, after);
        REQUIRE(none.bill.size() + none.labour.size() == 0);
    }
    std::cout << pairs << " random pairs of costed jobs judged, " << lines << " changed lines\n";
    for (const int kind : kinds) CHECK(kind > 500);
}
