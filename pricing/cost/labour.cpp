#include "pricing/cost/labour.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string_view>

#include "pricing/cost/conditions.h"
#include "pricing/cost/labour_groups.h"
#include "pricing/cost/learning.h"

namespace backplate {
namespace {

/// Order of printing: the course of a job.
constexpr std::array<std::string_view, 21> course{
    "purchasing",  "engineering", "drawings",   "software",
    "screens",     "network",     "safety",     "enclosure_preparation",
    "mounting",    "wiring",      "wire_check", "works_test",
    "witness",     "documents",   "packing",    "commissioning",
    "site_wiring", "site_days",   "travel",     "transport",
    "project_lead"};

std::size_t place_in_course(std::string_view activity) {
    return static_cast<std::size_t>(std::find(course.begin(), course.end(), activity) -
                                    course.begin());
}

/// count × value × hours per unit, in millionths of an hour, rounded once.
std::int64_t micro(const Decimal& value, double hours_per_unit, std::int64_t count = 1,
                   std::int64_t parts = 1) {
    const std::int64_t divisor = std::llround(1 / hours_per_unit) * parts;
    return multiply_divide(value.digits * count, 1000000, power_of_ten(value.places) * divisor,
                           Rounding::half_away);
}

std::int64_t micro(const LabourPlan::Entry& entry, const std::optional<Decimal>& value,
                   std::int64_t count) {
    const LabourNorm& norm = *entry.norm;
    return micro(value.value_or(norm.rule.value), norm.hours_per_unit, count, entry.driver.parts);
}

std::int64_t share(std::int64_t micro_hours, std::int64_t hours) {
    return multiply_divide(micro_hours, hours, 1000000, Rounding::half_away);
}

std::int64_t rate_steps(const Rule& rate) {
    return round_to_steps(rate.value, Money::places, Rounding::half_away);
}

LabourGroup& group_of(std::vector<LabourGroup>& groups, const LabourPlan::Entry& entry,
                      std::size_t box) {
    const LabourNorm& norm = *entry.norm;
    const bool at_job = entry.driver.per_job;
    for (LabourGroup& group : groups)
        if (group.activity == norm.activity && group.work_class == norm.work_class &&
            group.at_job == at_job && (at_job || group.box == box))
            return group;
    LabourGroup group;
    group.activity = norm.activity;
    group.work_class = norm.work_class;
    group.box = at_job ? 0 : box;
    group.at_job = at_job;
    group.rate = entry.rate;
    return groups.emplace_back(std::move(group));
}

/// Hours of one box as hours of all.
std::int64_t for_all(const LabourPlan& plan, const LabourNorm& norm, std::int64_t hours) {
    if (norm.once) return hours;
    return norm.learning ? share(hours, plan.batch) : hours * plan.boxes;
}

void add_counted(std::vector<LabourGroup>& groups, const BoxLabour& labour, std::size_t box) {
    const LabourPlan& plan = *labour.plan;
    for (const LabourPlan::Entry& entry : plan.counted) {
        const std::int64_t count = entry.driver.count(*labour.counts, entry.driver.of);
        if (count == 0) continue;
        const LabourNorm& norm = *entry.norm;
        const auto hours = [&](const std::optional<Decimal>& value) {
            return share(micro(entry, value, count), entry.hand_factor);
        };
        LabourGroup& group = group_of(groups, entry, box);
        const std::int64_t likely = hours(norm.rule.value);
        (norm.once ? group.once : group.each) += likely;
        if (!norm.once) group.all += for_all(plan, norm, likely);
        group.low += for_all(plan, norm, hours(norm.rule.low));
        group.high += for_all(plan, norm, hours(norm.rule.high));
        group.parts.push_back({&plan, &entry, count});
    }
}

/// What equipment brings along is stated, so it does not learn.
void add_own_hours(std::vector<LabourGroup>& groups, const BoxLabour& labour, std::size_t box) {
    const std::int64_t own = labour.counts->own_hours;
    if (own == 0) return;
    const std::int64_t one = own * 1000, all = one * labour.plan->boxes;
    for (LabourGroup& group : groups)
        if (group.activity == "mounting" && group.box == box) {
            group.each += one;
            group.all += all;
            group.low += all;
            group.high += all;
            group.own_hours = own;
            return;
        }
}

/// Hours of one box that a share counts.
struct CountedHours {
    const LabourPlan* plan;
    const LabourPlan::Entry* entry;
    std::size_t box;
    std::int64_t likely = 0, low = 0, high = 0;
};

CountedHours counted_by(const std::vector<LabourGroup>& groups, const LabourPlan& plan,
                        const LabourPlan::Entry& entry, std::size_t box) {
    CountedHours sum{&plan, &entry, box};
    for (const LabourGroup& group : groups) {
        if (group.box != box || !counts_hours_of(entry, group.activity, group.work_class)) continue;
        sum.likely += group.hours();
        sum.low += group.low;
        sum.high += group.high;
    }
    return sum;
}

/// What `micro_hours` of an activity cost with every share that hangs on them: the shares first,
/// then those of all other hours, as in hours_by_activity.
std::int64_t weight_of(const LabourPlan& plan, const LabourNorm& norm, std::int64_t micro_hours,
                       const Rule& rate) {
    std::int64_t weight = micro_hours * rate_steps(rate);
    std::vector<std::pair<const LabourNorm*, std::int64_t>> hours{{&norm, micro_hours}};
    for (const LabourPlan::Entry& entry : plan.shares)
        if (counts_hours_of(entry, norm.activity, norm.work_class))
            hours.emplace_back(entry.norm, share(entry.micro_hours, micro_hours));
    for (std::size_t i = 1; i < hours.size(); ++i)
        for (const LabourPlan::Entry& entry : plan.shares)
            if (entry.norm == hours[i].first) weight += hours[i].second * rate_steps(*entry.rate);
    for (const LabourPlan::Entry& entry : plan.overall)
        for (const auto& [own, own_hours] : hours)
            if (counts_hours_of(entry, own->activity, own->work_class))
                weight += share(entry.micro_hours, own_hours) * rate_steps(*entry.rate);
    return weight;
}

using Shares = std::vector<LabourPlan::Entry> LabourPlan::*;

/// All sums stand before the first share is added: shares of one sort do not count each other.
void add_shares(std::vector<LabourGroup>& groups, const std::vector<BoxLabour>& boxes,
                Shares shares) {
    std::vector<CountedHours> sums;
    for (std::size_t box = 0; box < boxes.size(); ++box)
        for (const LabourPlan::Entry& entry : boxes[box].plan->*shares)
            sums.push_back(counted_by(groups, *boxes[box].plan, entry, box));
    for (const CountedHours& sum : sums) {
        if (sum.likely == 0) continue;
        LabourGroup& group = group_of(groups, *sum.entry, sum.box);
        group.once += share(sum.entry->micro_hours, sum.likely);
        group.low += share(sum.entry->low, sum.low);
        group.high += share(sum.entry->high, sum.high);
        group.parts.push_back({sum.plan, sum.entry, 0});
    }
}

std::vector<LabourGroup> hours_by_activity(const std::vector<BoxLabour>& boxes) {
    std::vector<LabourGroup> groups;
    for (std::size_t box = 0; box < boxes.size(); ++box) {
        add_counted(groups, boxes[box], box);
        add_own_hours(groups, boxes[box], box);
    }
    add_shares(groups, boxes, &LabourPlan::shares);
    add_shares(groups, boxes, &LabourPlan::overall);
    return groups;
}

Hours rounded(std::int64_t micro_hours) {
    return Hours::of_steps(multiply_divide(micro_hours, 1, 1000, Rounding::half_away));
}

LabourLine line_of(const LabourGroup& group, const std::string& box, int digits) {
    LabourLine line;
    line.box = group.at_job ? "" : box;
    line.activity = group.activity;
    line.work_class = group.work_class;
    line.once = rounded(group.once);
    line.each = rounded(group.each);
    line.hours = line.once + rounded(group.all);
    line.rate =
        Money::of_steps(round_to_steps(group.rate->value, Money::places, Rounding::half_away));
    line.cost = line.rate.times(line.hours, digits);
    line.low_cost = static_cast<double>(group.low) / 1e6 * group.rate->number();
    line.high_cost = static_cast<double>(group.high) / 1e6 * group.rate->number();
    return line;
}

/// Product of the factors of the class, not above their limit; millionths.
std::int64_t hand_factor(const LabourPlan& plan, const std::string& work_class) {
    const auto millionths = [](const Rule& rule) {
        return round_to_steps(rule.value, 6, Rounding::half_away);
    };
    std::int64_t product = LabourPlan::million;
    for (const HandFactor* factor : plan.factors)
        if (factor->work_class == work_class) product = share(product, millionths(factor->rule));
    return plan.most_factor ? std::min(product, millionths(*plan.most_factor)) : product;
}

LabourPlan::Entry entry_of(const LabourPlan& plan, const LabourNorm& norm, Driver driver,
                           const RuleBook& rules) {
    LabourPlan::Entry entry;
    entry.norm = &norm;
    entry.driver = std::move(driver);
    entry.micro_hours = micro(norm.rule.value, norm.hours_per_unit);
    entry.low = norm.rule.low ? micro(*norm.rule.low, norm.hours_per_unit) : entry.micro_hours;
    entry.high = norm.rule.high ? micro(*norm.rule.high, norm.hours_per_unit) : entry.micro_hours;
    if (entry.driver.further_boxes)
        for (std::int64_t* hours : {&entry.micro_hours, &entry.low, &entry.high})
            *hours *= plan.boxes - 1;
    const auto rate = rules.rates.find(norm.work_class);
    entry.rate = rate == rules.rates.end() ? nullptr : &rate->second;
    if (entry.driver.count) entry.hand_factor = hand_factor(plan, norm.work_class);
    return entry;
}

LabourPlan plan_of_batch(const BidRequest& request, const Box& box, const RuleBook& rules) {
    LabourPlan plan;
    plan.box_index = box.index;
    plan.boxes = box.quantity;
    plan.batch = LearningCurve::of(rules.learning).total_millionths(box.quantity);
    for (const HandFactor& factor : rules.hand_factors)
        if (condition_holds(factor.condition, request, box, rules)) plan.factors.push_back(&factor);
    plan.exchange = rules.find_exchange(request.currency);
    if (rules.most_hand_factor) plan.most_factor = &*rules.most_hand_factor;
    return plan;
}

} // namespace

bool counts_hours_of(const LabourPlan::Entry& entry, const std::string& activity,
                     const std::string& work_class) {
    const auto& names = entry.driver.activities;
    if (!names.empty()) return std::find(names.begin(), names.end(), activity) != names.end();
    if (entry.driver.other_classes) return work_class != entry.norm->work_class;
    return activity != entry.norm->activity || work_class != entry.norm->work_class;
}

LabourPlan labour_plan(const BidRequest& request, const Box& box, const RuleBook& rules) {
    LabourPlan plan = plan_of_batch(request, box, rules);
    for (const LabourNorm& norm : rules.labour) {
        if (!condition_holds(norm.condition, request, box, rules)) continue;
        DriverLookup lookup = find_driver(norm.driver);
        const bool of_box = lookup.driver.count && !lookup.driver.per_job;
        if (norm.once && of_box && !box.work.repeat_of.empty()) continue;
        LabourPlan::Entry entry = entry_of(plan, norm, std::move(lookup.driver), rules);
        if (lookup.unknown || !entry.rate) {
            plan.unknown.push_back(norm.rule.id);
        } else if (entry.driver.count) {
            plan.counted.push_back(std::move(entry));
        } else if (entry.driver.activities.empty()) {
            plan.overall.push_back(std::move(entry));
        } else {
            plan.shares.push_back(std::move(entry));
        }
    }
    for (LabourPlan::Entry& entry : plan.counted) {
        const std::int64_t hours = share(entry.micro_hours, entry.hand_factor);
        entry.weight = weight_of(plan, *entry.norm, for_all(plan, *entry.norm, hours), *entry.rate);
        if (entry.norm->activity == "mounting" && plan.own_hour_weight == 0)
            plan.own_hour_weight =
                weight_of(plan, *entry.norm, LabourPlan::million * plan.boxes, *entry.rate);
    }
    return plan;
}

std::int64_t LabourPlan::Entry::cost(const BoxCounts& counts) const {
    return multiply_divide(weight, driver.count(counts, driver.of), driver.parts,
                           Rounding::half_away);
}

std::int64_t labour_cost(const LabourPlan& plan, const BoxCounts& counts) {
    std::int64_t weight =
        multiply_divide(plan.own_hour_weight, counts.own_hours, 1000, Rounding::half_away);
    for (const LabourPlan::Entry& entry : plan.counted) weight += entry.cost(counts);
    return multiply_divide(weight, 1, 1000000, Rounding::half_away);
}

std::vector<LabourLine> labour_lines(const std::vector<BoxLabour>& boxes, int digits,
                                     Recorder* recorder) {
    std::vector<LabourGroup> groups = hours_by_activity(boxes);
    const auto place = [&](const LabourGroup& group) {
        const bool one_kind = boxes.size() == 1;
        const std::size_t box = one_kind ? 0 : group.at_job ? boxes.size() : group.box;
        return std::pair(box, place_in_course(group.activity));
    };
    std::stable_sort(groups.begin(), groups.end(), [&](const LabourGroup& a, const LabourGroup& b) {
        return place(a) < place(b);
    });
    std::vector<LabourLine> lines;
    for (const LabourGroup& group : groups)
        lines.push_back(line_of(group, boxes[group.box].name, digits));
    if (recorder) record_labour(groups, lines, digits, *recorder);
    return lines;
}

} // namespace backplate
