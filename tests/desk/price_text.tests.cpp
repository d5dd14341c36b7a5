#include <catch2/catch.hpp>

#include "app/desk/price_text.h"
#include "app/desk/why_text.h"
#include "pricing/price_job.h"
#include "pricing/request/check_request.h"

using namespace backplate;

namespace {

const FigureText plain('.');

/// A desk whose newest answer is the estimate of so many DI points with the starter data.
struct Answered {
    explicit Answered(int points, const char* due = "2026-12-03") {
        state.inputs = std::make_shared<const Inputs>(load_inputs(":starter:"));
        state.today = Date::of(2026, 11, 24);
        state.session.set_value("/job/date", Node::make_text("2026-11-24"));
        state.session.set_value("/job/due", Node::make_text(due));
        Node point = Node::make_object();
        point.member("signal") = Node::make_text("DI");
        point.member("count") = Node::make_number(std::to_string(points));
        Node list = Node::make_list();
        list.items.push_back(point);
        state.session.set_value("/boxes/0/points", list);
        const auto checked =
            check_request(*state.session.request(), *state.inputs->rules, state.today);
        Work work;
        Answer answer;
        answer.estimate = std::make_shared<const Estimate>(
            price_job(*checked.request, *state.inputs->prices, *state.inputs->rules, work));
        state.good = state.answer = std::make_shared<const Answer>(std::move(answer));
    }
    DeskState state;
};

} // namespace

TEST_CASE("the shares of the bar are the price without concession and rounding") {
    const Answered desk(40);
    const PriceResult& price = *desk.state.estimate()->price;
    Money sum;
    Money cuts;
    for (const PriceShare& share : price_shares(*desk.state.estimate())) {
        sum = sum + share.amount;
        for (const auto& cut : share.cuts) cuts = cuts + cut.second;
    }
    CHECK(sum == price.price - price.rounding + price.concession);
    CHECK(cuts == price.labour);
}

TEST_CASE("the range says its prices in words") {
    PriceResult price;
    price.p50 = Money::whole(24398);
    price.p80 = Money::whole(28009);
    CHECK(even_words(price, plain) == "As likely above as below: 24\u202f398.00");
    CHECK(enough_words(price, plain) == "Four times in five enough: 28\u202f009.00");
}

TEST_CASE("an alternative nearer than the estimate is sure of makes no real difference") {
    PriceResult base;
    base.p50 = Money::whole(100);
    base.p80 = Money::whole(130);
    Alternative each;
    each.difference.emplace().price = Money::whole(29);
    CHECK(no_real_difference(each, base));
    each.difference.emplace().price = Money::whole(-29);
    CHECK(no_real_difference(each, base));
    each.difference.emplace().price = Money::whole(30);
    CHECK_FALSE(no_real_difference(each, base));
}

TEST_CASE("days are counted to the day the bid is due") {
    CHECK(days_left(Answered(8, "2026-12-03").state) == "9 days left");
    CHECK(days_left(Answered(8, "2026-11-25").state) == "1 day left");
    CHECK(days_left(Answered(8, "2026-11-24").state) == "due today");
    CHECK(days_left(Answered(8, "2026-11-21").state) == "3 days late");
}

TEST_CASE("what changed is said by price, hours and modules, and nothing where nothing did") {
    const Answered few(8);
    const Answered many(80);
    CHECK(change_words(*few.state.estimate(), *few.state.estimate(), plain).empty());
    const std::string words = change_words(*few.state.estimate(), *many.state.estimate(), plain);
    CHECK(words.starts_with("+"));
    CHECK(words.find(" h · ") != std::string::npos);
}

TEST_CASE("a bid may be sent where no stop and no fault stands against it") {
    Answered desk(8);
    CHECK(send_state(desk.state).may);
    Answer faulty;
    faulty.faults.push_back({"/boxes/0/points/0/count", "is missing"});
    desk.state.answer = std::make_shared<const Answer>(faulty);
    CHECK(send_state(desk.state).words == "Not to be sent: 1 fault");
    CHECK(send_state(desk.state).pointer == "/boxes/0/points/0/count");
    Estimate stopped = *desk.state.estimate();
    stopped.findings.insert(stopped.findings.begin(), {"NO_PRICE", Severity::stop, "/boxes/0", {}});
    Answer answer;
    answer.estimate = std::make_shared<const Estimate>(stopped);
    desk.state.good = desk.state.answer = std::make_shared<const Answer>(answer);
    CHECK_FALSE(send_state(desk.state).may);
    CHECK(send_state(desk.state).pointer == "/boxes/0");
}

TEST_CASE("hours by class add up to the hours of the job") {
    const Answered desk(40);
    const TextRows rows = class_rows(*desk.state.estimate(), plain);
    REQUIRE(rows.size() > 3);
    CHECK(rows.back()[0] == "All");
    CHECK(rows.back()[1] == plain.hours(labour_hours(*desk.state.estimate())));
}

TEST_CASE("every figure below a pointer has its inputs, and a rule its row") {
    const Answered desk(40);
    const Estimate& estimate = *desk.state.estimate();
    const auto heat = basis_below(estimate, "/boxes/0/heat");
    REQUIRE(heat.size() >= 3);
    CHECK(figure_words("/boxes/0/heat/inside_w", estimate) == "CP1: heat, inside");
    const TextRows inputs = input_rows(*heat.front(), estimate, plain);
    CHECK(inputs.size() == heat.front()->inputs.size());
    CHECK(inputs.front()[0] == "a");
    const TextRows rule = rule_rows("rates/shop", desk.state.inputs->rule_tables);
    REQUIRE_FALSE(rule.empty());
    CHECK(rule.front()[0] == "value");
    CHECK(rule.front()[1] == "52.00");
    CHECK(rule_rows("rates/nobody", desk.state.inputs->rule_tables).empty());
    CHECK(rule_rows("heat/inside", desk.state.inputs->rule_tables).empty());
}
