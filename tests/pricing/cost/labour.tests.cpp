#include "pricing/cost/labour.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <iostream>
#include <set>

#include "pricing/cost/conditions.h"
#include "pricing/cost/learning.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

struct ConditionCase {
    const char* condition;
    bool holds;
};

/// Against the request of `sample()`: works test included, commissioning not stated, 2 site days.
constexpr ConditionCase conditions[] = {
    {"always", true},
    {"", true},
    {"scope.works_test=included", true},
    {"scope.works_test=excluded", false},
    {"scope.works_test!=included", false},
    {"scope.works_test!=excluded", true},
    {"scope.commissioning=excluded", true}, // not stated: the default
    {"scope.transport=excluded", true},
    {"scope.drawings=included", true},
    {"scope.site_days>0", true},
    {"scope.site_days>2", false},
    {"scope.languages>1", true},
    {"scope.witness_days>0", false},
    {"practice=iec", true},
    {"practice=north_america", false},
    {"approvals>0", true},
    {"approvals>1", false},
    {"spare.kind=installed", true},
    {"spare.kind!=slot", true},
    {"practice=iec and scope.site_days>0", true},
    {"practice=iec and scope.site_days>2", false},
    {"practice=north_america and always", false},
    {"colour=blue", false},
    {"quantity=1", true},
    {"quantity>1", false},
    {"backup_minutes>0", false},
    {"cooling=any", true},
    {"circumstance.site_work=yes", true},
    {"circumstance.vibration=yes", false},
    {"circumstance.vibration=no", true},
    {"delivery.carriage=seller", true}, // CIP
    {"delivery.insurance=seller", true},
    {"delivery.duty=buyer", true},
    {"delivery.duty=seller", false},
    {"scope.site_days", false},
};

BidRequest sample() {
    BidRequest request;
    request.scope.works_test = "included";
    request.scope.commissioning = request.scope.transport = request.scope.drawings = "not_stated";
    request.scope.software = request.scope.packing = "included";
    request.scope.documents = "full";
    request.scope.site_days = 2;
    request.scope.languages = 2;
    request.boxes.resize(1);
    request.boxes.front().site.approvals = {"UL 508A"};
    request.spare.kind = SpareKind::installed;
    request.circumstances = {"site_work"};
    request.commercial.delivery_term = "CIP";
    return request;
}

BoxCounts random_counts(Draws& draws) {
    BoxCounts counts;
    counts.jobs = 1;
    for (int BoxCounts::*member : {&BoxCounts::bill_lines,
                                   &BoxCounts::controllers,
                                   &BoxCounts::modules,
                                   &BoxCounts::enclosures_wall,
                                   &BoxCounts::enclosures_floor,
                                   &BoxCounts::cut_round,
                                   &BoxCounts::cut_rectangular,
                                   &BoxCounts::cut_gland,
                                   &BoxCounts::rail_rows,
                                   &BoxCounts::devices_small,
                                   &BoxCounts::devices_large,
                                   &BoxCounts::devices_on_plate,
                                   &BoxCounts::devices,
                                   &BoxCounts::door_devices,
                                   &BoxCounts::operator_panels,
                                   &BoxCounts::terminals,
                                   &BoxCounts::wires,
                                   &BoxCounts::shields,
                                   &BoxCounts::network_leads,
                                   &BoxCounts::points,
                                   &BoxCounts::loops,
                                   &BoxCounts::screens,
                                   &BoxCounts::networks,
                                   &BoxCounts::network_devices,
                                   &BoxCounts::soft_points,
                                   &BoxCounts::sheets_new,
                                   &BoxCounts::sheets_typical,
                                   &BoxCounts::sheets_generated})
        counts.*member = draws.between(0, 400);
    for (const char* work_class : {"digital", "analogue", "temperature", "special", "safety"}) {
        counts.points_by_class[work_class] = draws.between(0, 200);
        counts.tested_by_class[work_class] = draws.between(0, 200);
    }
    counts.own_hours = draws.between(0, 20000);
    return counts;
}

} // namespace

TEST_CASE("conditions of the hours table") {
    const BidRequest request = sample();
    int judged = 0;
    for (const ConditionCase& row : conditions) {
        CAPTURE(row.condition);
        CHECK(condition_holds(row.condition, request, request.boxes.front(), starter_rules()) ==
              row.holds);
        ++judged;
    }
    BidRequest unstated = request;
    unstated.spare.kind = SpareKind::unstated;
    CHECK(condition_holds("spare.kind=wired", unstated, unstated.boxes.front(), starter_rules()));
    CHECK(judged == 35);
}

TEST_CASE("weights of the counts give what the printed lines add up to") {
    const BidRequest request = sample();
    const LabourPlan plan = labour_plan(request, request.boxes.front(), starter_rules());
    CHECK(plan.unknown.empty());
    CHECK_FALSE(plan.shares.empty());
    CHECK_FALSE(plan.overall.empty());
    Draws draws(59);
    int judged = 0;
    for (int i = 0; i < 500; ++i, ++judged) {
        const BoxCounts counts = random_counts(draws);
        const auto lines = labour_lines({{&plan, &counts, "CP1"}}, 2, nullptr);
        double printed = 0, rounding = 0.001;
        for (const LabourLine& line : lines) {
            printed += line.cost.number();
            rounding += 0.001 * line.rate.number() + 0.005; // once and each, then the cent
        }
        const double weighed = static_cast<double>(labour_cost(plan, counts)) / 10000;
        CAPTURE(i, printed, weighed);
        CHECK(std::abs(printed - weighed) <= rounding);
        CHECK(printed > 1000);
    }
    CHECK(judged == 500);
}

TEST_CASE("hours of one activity stand in one line, once and each apart") {
    const BidRequest request = sample();
    const LabourPlan plan = labour_plan(request, request.boxes.front(), starter_rules());
    Draws draws(61);
    const BoxCounts counts = random_counts(draws);
    std::set<std::string> seen;
    for (const LabourLine& line : labour_lines({{&plan, &counts, "CP1"}}, 2, nullptr)) {
        CHECK(seen.insert(line.activity + "/" + line.work_class + "/" + line.box).second);
        CHECK(line.hours == line.once + line.each);
        CHECK(line.low_cost <= line.cost.number() + 0.1);
        CHECK(line.high_cost >= line.cost.number() - 0.1);
    }
    CHECK(seen.size() >= 12);
}

TEST_CASE("more of anything never costs fewer hours") {
    const BidRequest request = sample();
    const LabourPlan plan = labour_plan(request, request.boxes.front(), starter_rules());
    int counted = 0;
    for (const LabourPlan::Entry& entry : plan.counted) {
        CHECK(entry.weight >= entry.micro_hours);
        counted += entry.weight > 0 ? 1 : 0;
    }
    CHECK(counted >= 40);
}

TEST_CASE("costs of equal boxes add up whatever their number") {
    Draws draws(71);
    int judged = 0;
    for (int i = 0; i < 200; ++i, ++judged) {
        BidRequest request = sample();
        Box& box = request.boxes.front();
        box.quantity = draws.between(1, 40);
        const LabourPlan plan = labour_plan(request, box, starter_rules());
        BoxCounts counts = random_counts(draws);
        counts.further_boxes = box.quantity - 1;
        const auto lines = labour_lines({{&plan, &counts, "CP1"}}, 2, nullptr);
        const double batch = LearningCurve::of(starter_rules().learning).total(box.quantity);
        double printed = 0, rounding = 0.002;
        for (const LabourLine& line : lines) {
            CAPTURE(i, box.quantity, line.activity);
            // between learning for all of it and for none
            CHECK(line.hours.number() <=
                  line.once.number() + line.each.number() * box.quantity + 0.01 * box.quantity);
            CHECK(line.hours.number() >=
                  line.once.number() + line.each.number() * batch - 0.01 * box.quantity);
            CHECK(line.cost == line.rate.times(line.hours, 2));
            printed += line.cost.number();
            rounding += 0.001 * line.rate.number() + 0.005;
        }
        const double weighed = static_cast<double>(labour_cost(plan, counts)) / 10000;
        // hours of the curve are rounded to a millionth per row
        CHECK(std::abs(printed - weighed) <= rounding + printed * 2e-6);
    }
    CHECK(judged == 200);
}

TEST_CASE("one-off hours stay, repeating hours follow the quantity") {
    Draws draws(73);
    const BoxCounts counts = random_counts(draws);
    BidRequest request = sample();
    Box& box = request.boxes.front();
    const auto lines_of = [&](int quantity) {
        box.quantity = quantity;
        const LabourPlan plan = labour_plan(request, box, starter_rules());
        return labour_lines({{&plan, &counts, "CP1"}}, 2, nullptr);
    };
    const auto find = [](const std::vector<LabourLine>& lines, const std::string& activity) {
        for (const LabourLine& line : lines)
            if (line.activity == activity) return line;
        throw std::runtime_error("no line of " + activity);
    };
    const auto one = lines_of(1), four = lines_of(4);
    CHECK(find(four, "drawings").hours == find(one, "drawings").hours);
    CHECK(find(four, "drawings").once == find(one, "drawings").once);
    // 90 % unit theory at four: 3.5562 times the first (LC4: 11.1 % below four)
    CHECK(find(four, "wiring").each == find(one, "wiring").each);
    CHECK(find(four, "wiring").hours.number() ==
          Approx(find(one, "wiring").hours.number() * 3.5562).epsilon(1e-4));
    CHECK(find(four, "works_test").each == find(one, "works_test").each);
}

TEST_CASE("hand factors multiply up to their limit") {
    RuleBook rules = starter_rules();
    const auto factor = [](std::int64_t digits) {
        HandFactor result;
        result.rule.id = "hand_factors/any";
        result.rule.value = {digits, 2};
        result.work_class = "shop";
        result.condition = "always";
        return result;
    };
    BidRequest request = sample();
    const Box& box = request.boxes.front();
    Draws draws(79);
    const BoxCounts counts = random_counts(draws);
    const auto wiring = [&] {
        const LabourPlan plan = labour_plan(request, box, rules);
        for (const LabourLine& line : labour_lines({{&plan, &counts, "CP1"}}, 2, nullptr))
            if (line.activity == "wiring") return line.hours.number();
        return 0.0;
    };
    const double plain = wiring();
    rules.hand_factors = {factor(115), factor(120)};
    CHECK(wiring() == Approx(plain * 1.15 * 1.20).epsilon(1e-4));
    rules.hand_factors.push_back(factor(190)); // 2.622 in all; the product stays at 2
    CHECK(wiring() == Approx(plain * 2).epsilon(1e-4));
}
