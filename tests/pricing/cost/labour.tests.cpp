#include "pricing/cost/labour.h"

#include <catch2/catch.hpp>
#include <iostream>
#include <set>

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
    return request;
}

BoxCounts random_counts(Draws& draws) {
    BoxCounts counts;
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
        CHECK(condition_holds(row.condition, request) == row.holds);
        ++judged;
    }
    BidRequest unstated = request;
    unstated.spare.kind = SpareKind::unstated;
    CHECK(condition_holds("spare.kind=wired", unstated));
    CHECK(judged == 24);
}

TEST_CASE("weights of the counts give what the printed lines add up to") {
    const LabourPlan plan = labour_plan(sample(), starter_rules());
    CHECK(plan.unknown.empty());
    CHECK_FALSE(plan.shares.empty());
    CHECK_FALSE(plan.overall.empty());
    Draws draws(59);
    int judged = 0;
    for (int i = 0; i < 500; ++i, ++judged) {
        const BoxCounts counts = random_counts(draws);
        const auto lines = labour_lines(plan, counts, "CP1", 2, nullptr);
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
    const LabourPlan plan = labour_plan(sample(), starter_rules());
    Draws draws(61);
    const BoxCounts counts = random_counts(draws);
    std::set<std::string> seen;
    for (const LabourLine& line : labour_lines(plan, counts, "CP1", 2, nullptr)) {
        CHECK(seen.insert(line.activity + "/" + line.work_class + "/" + line.box).second);
        CHECK(line.hours == line.once + line.each);
        CHECK(line.low_cost <= line.cost.number() + 0.1);
        CHECK(line.high_cost >= line.cost.number() - 0.1);
    }
    CHECK(seen.size() >= 12);
}

TEST_CASE("more of anything never costs fewer hours") {
    const LabourPlan plan = labour_plan(sample(), starter_rules());
    int counted = 0;
    for (const LabourPlan::Entry& entry : plan.counted) {
        CHECK(entry.weight >= entry.micro_hours);
        counted += entry.weight > 0 ? 1 : 0;
    }
    CHECK(counted >= 40);
}
