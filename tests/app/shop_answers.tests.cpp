#include "app/shop_answers.h"

#include <catch2/catch.hpp>

#include "app/inputs.h"
#include "app/session.h"
#include "pricing/price_job.h"
#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"

using namespace backplate;

namespace {

/// A job of 64 points with the starter rules, or with those of the test.
Estimate estimate_with(const PriceBook& prices, const RuleBook& rules) {
    Node request = blank_request();
    Node point = Node::make_object();
    point.member("signal") = Node::make_text("DI");
    point.member("count") = Node::make_number("64");
    request.find("boxes")->items[0].find("points")->items.push_back(point);
    const auto checked = check_request(request, rules, Date::of(2026, 11, 24));
    Work work;
    return price_job(*checked.request, prices, rules, work);
}

} // namespace

TEST_CASE("the norms scaled by a shop's answers give them back for the job it knows") {
    const Inputs inputs = load_inputs(":starter:");
    const Estimate before = estimate_with(*inputs.prices, *inputs.rules);
    const KnownJob job = known_job(before, inputs.rule_tables);
    REQUIRE(job.points == 64);
    REQUIRE(job.shop_hours > 10);
    ShopAnswers answers;
    answers.rate_shop = 60;
    answers.rate_engineering = 90;
    answers.shop_hours = job.shop_hours * 1.25;
    answers.hours_per_point = job.other_hours / job.points * 0.8;
    const auto made = make_rule_book(with_shop_answers(inputs.rule_tables, answers, job));
    REQUIRE(made.book);
    const Estimate after = estimate_with(*inputs.prices, *made.book);
    const KnownJob now = known_job(after, inputs.rule_tables);
    // norms are rounded to hundredths of a minute; hours of the panel itself may shift with them
    CHECK(now.shop_hours == Approx(answers.shop_hours).epsilon(0.01));
    CHECK(now.other_hours / now.points == Approx(answers.hours_per_point).epsilon(0.01));
    for (const LabourLine& line : after.labour) {
        if (line.work_class == "shop") CHECK(line.rate == Money::whole(60));
        if (line.work_class == "engineering") CHECK(line.rate == Money::whole(90));
    }
    CHECK(made.book->norms_confirmed);
}

TEST_CASE("how far an answer may lie from the norms is a row of the rules") {
    Inputs inputs = load_inputs(":starter:");
    const KnownJob job =
        known_job(estimate_with(*inputs.prices, *inputs.rules), inputs.rule_tables);
    ShopAnswers answers;
    answers.rate_shop = job.rate_shop * 5;
    CHECK_NOTHROW(with_shop_answers(inputs.rule_tables, answers, job));
    answers.rate_shop = job.rate_shop * 5.1;
    CHECK_THROWS_AS(with_shop_answers(inputs.rule_tables, answers, job), BadInput);
    for (RuleRow& row : inputs.rule_tables.table("shop").rows)
        if (row.key == "most_answer_factor") row.active = false;
    CHECK_NOTHROW(with_shop_answers(inputs.rule_tables, answers, job));
}

TEST_CASE("answers left open change nothing but that the norms are confirmed") {
    const Inputs inputs = load_inputs(":starter:");
    const KnownJob job =
        known_job(estimate_with(*inputs.prices, *inputs.rules), inputs.rule_tables);
    const RuleTables changed = with_shop_answers(inputs.rule_tables, {}, job);
    CHECK(*changed.find("hours") == *inputs.rule_tables.find("hours"));
    CHECK(*changed.find("rates") == *inputs.rule_tables.find("rates"));
}

TEST_CASE("an answer far from the norms is refused with the range that is taken") {
    const Inputs inputs = load_inputs(":starter:");
    const KnownJob job =
        known_job(estimate_with(*inputs.prices, *inputs.rules), inputs.rule_tables);
    ShopAnswers answers;
    answers.rate_shop = 5200;
    CHECK_THROWS_WITH(with_shop_answers(inputs.rule_tables, answers, job),
                      Catch::Contains("Rate of the workshop: 5200.00, expected from 10.40 to 260"));
}
