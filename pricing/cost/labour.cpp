#include "pricing/cost/labour.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string_view>

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
std::int64_t micro(const Decimal& value, double hours_per_unit, std::int64_t count = 1) {
    const std::int64_t divisor = std::llround(1 / hours_per_unit);
    return multiply_divide(value.digits * count, 1000000, power_of_ten(value.places) * divisor,
                           Rounding::half_away);
}

std::int64_t micro(const LabourNorm& norm, const std::optional<Decimal>& value,
                   std::int64_t count) {
    return micro(value.value_or(norm.rule.value), norm.hours_per_unit, count);
}

std::int64_t share(std::int64_t micro_hours, std::int64_t hours) {
    return multiply_divide(micro_hours, hours, 1000000, Rounding::half_away);
}

std::int64_t rate_steps(const Rule& rate) {
    return round_to_steps(rate.value, Money::places, Rounding::half_away);
}

std::string scope_word(std::string_view key, const ScopeOfSupply& scope) {
    if (key == "drawings") return scope.drawings;
    if (key == "software") return scope.software;
    if (key == "works_test") return scope.works_test;
    if (key == "commissioning") return scope.commissioning;
    if (key == "packing") return scope.packing;
    if (key == "transport") return scope.transport;
    if (key == "documents") return scope.documents;
    if (key == "languages") return steps_text(scope.languages, 0);
    if (key == "witness_days") return number_text(scope.witness_days);
    if (key == "site_days") return number_text(scope.site_days);
    return {};
}

std::string spare_kind(SpareKind kind) {
    if (kind == SpareKind::installed) return "installed";
    return kind == SpareKind::slot ? "slot" : "wired";
}

std::string fact(std::string_view key, const BidRequest& request) {
    if (key.starts_with("scope.")) {
        const std::string word = scope_word(key.substr(6), request.scope);
        if (word != "not_stated") return word;
        return key == "scope.commissioning" || key == "scope.transport" ? "excluded" : "included";
    }
    if (key == "practice") return request.north_america ? "north_america" : "iec";
    if (key == "spare.kind") return spare_kind(request.spare.kind);
    if (key == "approvals") {
        std::size_t count = 0;
        for (const Box& box : request.boxes) count += box.site.approvals.size();
        return steps_text(static_cast<std::int64_t>(count), 0);
    }
    return {};
}

bool term_holds(std::string_view term, const BidRequest& request) {
    if (term == "always") return true;
    if (const auto at = term.find("!="); at != std::string_view::npos)
        return fact(term.substr(0, at), request) != term.substr(at + 2);
    if (const auto at = term.find('='); at != std::string_view::npos)
        return fact(term.substr(0, at), request) == term.substr(at + 1);
    const auto at = term.find('>');
    if (at == std::string_view::npos) return false;
    const auto have = parse_decimal(fact(term.substr(0, at), request));
    const auto limit = parse_decimal(term.substr(at + 1));
    return have && limit && have->number() > limit->number();
}

/// Hours of one activity and class, millionths.
struct Group {
    std::string activity, work_class;
    bool at_job = false;
    const Rule* rate = nullptr;
    std::int64_t once = 0, each = 0, low = 0, high = 0;
    std::vector<std::pair<const LabourPlan::Entry*, std::int64_t>> parts; ///< with their count
    std::int64_t hours() const { return once + each; }
};

Group& group_of(std::vector<Group>& groups, const LabourPlan::Entry& entry) {
    const LabourNorm& norm = *entry.norm;
    for (Group& group : groups)
        if (group.activity == norm.activity && group.work_class == norm.work_class &&
            group.at_job == entry.driver.per_job)
            return group;
    groups.push_back(
        {norm.activity, norm.work_class, entry.driver.per_job, entry.rate, 0, 0, 0, 0, {}});
    return groups.back();
}

void add_hours(Group& group, const LabourPlan::Entry& entry, std::int64_t likely, std::int64_t low,
               std::int64_t high, std::int64_t count) {
    (entry.norm->once ? group.once : group.each) += likely;
    group.low += low;
    group.high += high;
    group.parts.emplace_back(&entry, count);
}

void add_counted(std::vector<Group>& groups, const LabourPlan& plan, const BoxCounts& counts) {
    for (const LabourPlan::Entry& entry : plan.counted) {
        const std::int64_t count = entry.driver.count(counts, entry.driver.of);
        if (count == 0) continue;
        const LabourNorm& norm = *entry.norm;
        add_hours(group_of(groups, entry), entry, micro(norm, norm.rule.value, count),
                  micro(norm, norm.rule.low, count), micro(norm, norm.rule.high, count), count);
    }
}

void add_own_hours(std::vector<Group>& groups, const BoxCounts& counts) {
    if (counts.own_hours == 0) return;
    for (Group& group : groups)
        if (group.activity == "mounting") {
            group.each += counts.own_hours * 1000;
            group.low += counts.own_hours * 1000;
            group.high += counts.own_hours * 1000;
            return;
        }
}

/// Does the share count the hours of this activity and class: of those it names, else of all but
/// its own (its own class, where it says so).
bool counts(const LabourPlan::Entry& entry, const std::string& activity,
            const std::string& work_class) {
    const auto& names = entry.driver.activities;
    if (!names.empty()) return std::find(names.begin(), names.end(), activity) != names.end();
    if (entry.driver.other_classes) return work_class != entry.norm->work_class;
    return activity != entry.norm->activity || work_class != entry.norm->work_class;
}

Group counted_by(const std::vector<Group>& groups, const LabourPlan::Entry& entry) {
    Group sum;
    for (const Group& group : groups) {
        if (!counts(entry, group.activity, group.work_class)) continue;
        sum.once += group.hours();
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
        if (counts(entry, norm.activity, norm.work_class))
            hours.emplace_back(entry.norm, share(entry.micro_hours, micro_hours));
    for (std::size_t i = 1; i < hours.size(); ++i)
        for (const LabourPlan::Entry& entry : plan.shares)
            if (entry.norm == hours[i].first) weight += hours[i].second * rate_steps(*entry.rate);
    for (const LabourPlan::Entry& entry : plan.overall)
        for (const auto& [own, own_hours] : hours)
            if (counts(entry, own->activity, own->work_class))
                weight += share(entry.micro_hours, own_hours) * rate_steps(*entry.rate);
    return weight;
}

void add_shares(std::vector<Group>& groups, const std::vector<LabourPlan::Entry>& shares) {
    std::vector<std::pair<const LabourPlan::Entry*, Group>> sums;
    for (const LabourPlan::Entry& entry : shares)
        sums.emplace_back(&entry, counted_by(groups, entry));
    for (const auto& [entry, sum] : sums) {
        if (sum.once == 0) continue;
        add_hours(group_of(groups, *entry), *entry, share(entry->micro_hours, sum.once),
                  share(entry->low, sum.low), share(entry->high, sum.high), 0);
    }
}

std::vector<Group> hours_by_activity(const LabourPlan& plan, const BoxCounts& counts) {
    std::vector<Group> groups;
    add_counted(groups, plan, counts);
    add_own_hours(groups, counts);
    add_shares(groups, plan.shares);
    add_shares(groups, plan.overall);
    return groups;
}

Hours rounded(std::int64_t micro_hours) {
    return Hours::of_steps(multiply_divide(micro_hours, 1, 1000, Rounding::half_away));
}

LabourLine line_of(const Group& group, const std::string& box, int digits) {
    LabourLine line;
    line.box = group.at_job ? "" : box;
    line.activity = group.activity;
    line.work_class = group.work_class;
    line.once = rounded(group.once);
    line.each = rounded(group.each);
    line.hours = line.once + line.each;
    line.rate =
        Money::of_steps(round_to_steps(group.rate->value, Money::places, Rounding::half_away));
    line.cost = line.rate.times(line.hours, digits);
    line.low_cost = static_cast<double>(group.low) / 1e6 * group.rate->number();
    line.high_cost = static_cast<double>(group.high) / 1e6 * group.rate->number();
    return line;
}

/// "3 × a ÷ 60": a count as a plain number, the norm by its row.
std::string counted_term(const LabourPlan::Entry& part, std::int64_t count, BasisEntry& entry) {
    const Rule& rule = part.norm->rule;
    std::string term = steps_text(count, 0) + " × " + input_letter(entry.inputs.size());
    if (part.norm->hours_per_unit != 1) term += " ÷ 60";
    entry.inputs.push_back(from_rule(rule.id, rule.text(), rule.unit));
    return term;
}

/// "(a + b) × c ÷ 100": the printed hours that the share counts.
std::string share_term(const LabourPlan::Entry& part, const std::vector<LabourLine>& lines,
                       BasisEntry& entry) {
    std::string sum;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!counts(part, lines[i].activity, lines[i].work_class)) continue;
        sum += (sum.empty() ? "" : " + ") + input_letter(entry.inputs.size());
        entry.inputs.push_back(
            from_figure("/labour/" + steps_text(static_cast<std::int64_t>(i), 0) + "/hours",
                        lines[i].hours.text(), "h"));
    }
    const Rule& rule = part.norm->rule;
    const std::string term = "(" + sum + ") × " + input_letter(entry.inputs.size()) + " ÷ " +
                             steps_text(std::llround(1 / part.norm->hours_per_unit), 0);
    entry.inputs.push_back(from_rule(rule.id, rule.text(), rule.unit));
    return term;
}

void record_group(const Group& group, std::size_t index, std::int64_t own_hours,
                  const std::vector<LabourLine>& lines, Recorder& recorder) {
    const LabourLine& line = lines[index];
    const Rule& first = group.parts.front().first->norm->rule;
    BasisEntry entry{"/labour/" + steps_text(static_cast<std::int64_t>(index), 0) + "/hours",
                     line.hours.text(),
                     "h",
                     "",
                     first.id,
                     {},
                     first.source};
    for (const auto& [part, count] : group.parts) {
        if (!entry.formula.empty()) entry.formula += " + ";
        entry.formula += part->driver.count ? counted_term(*part, count, entry)
                                            : share_term(*part, lines, entry);
    }
    if (group.activity == "mounting" && own_hours > 0)
        entry.formula += " + " + steps_text(own_hours, 3);
    recorder.add(std::move(entry));
}

LabourPlan::Entry entry_of(const LabourNorm& norm, Driver driver, const RuleBook& rules) {
    LabourPlan::Entry entry;
    entry.norm = &norm;
    entry.driver = std::move(driver);
    entry.micro_hours = micro(norm.rule.value, norm.hours_per_unit);
    entry.low = norm.rule.low ? micro(*norm.rule.low, norm.hours_per_unit) : entry.micro_hours;
    entry.high = norm.rule.high ? micro(*norm.rule.high, norm.hours_per_unit) : entry.micro_hours;
    const auto rate = rules.rates.find(norm.work_class);
    entry.rate = rate == rules.rates.end() ? nullptr : &rate->second;
    return entry;
}

} // namespace

bool condition_holds(const std::string& condition, const BidRequest& request) {
    std::string_view rest = condition;
    while (!rest.empty()) {
        const auto end = rest.find(" and ");
        if (!term_holds(rest.substr(0, end), request)) return false;
        if (end == std::string_view::npos) break;
        rest.remove_prefix(end + 5);
    }
    return true;
}

LabourPlan labour_plan(const BidRequest& request, const RuleBook& rules) {
    LabourPlan plan;
    for (const LabourNorm& norm : rules.labour) {
        if (!condition_holds(norm.condition, request)) continue;
        DriverLookup lookup = find_driver(norm.driver);
        LabourPlan::Entry entry = entry_of(norm, std::move(lookup.driver), rules);
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
        entry.weight = weight_of(plan, *entry.norm, entry.micro_hours, *entry.rate);
        if (entry.norm->activity == "mounting" && plan.own_hour_weight == 0)
            plan.own_hour_weight = weight_of(plan, *entry.norm, 1000000, *entry.rate);
    }
    return plan;
}

std::int64_t labour_cost(const LabourPlan& plan, const BoxCounts& counts) {
    std::int64_t weight =
        multiply_divide(plan.own_hour_weight, counts.own_hours, 1000, Rounding::half_away);
    for (const LabourPlan::Entry& entry : plan.counted)
        weight += entry.weight * entry.driver.count(counts, entry.driver.of);
    return multiply_divide(weight, 1, 1000000, Rounding::half_away);
}

std::vector<LabourLine> labour_lines(const LabourPlan& plan, const BoxCounts& counts,
                                     const std::string& box, int digits, Recorder* recorder) {
    std::vector<Group> groups = hours_by_activity(plan, counts);
    std::stable_sort(groups.begin(), groups.end(), [](const Group& a, const Group& b) {
        return place_in_course(a.activity) < place_in_course(b.activity);
    });
    std::vector<LabourLine> lines;
    for (const Group& group : groups) lines.push_back(line_of(group, box, digits));
    if (!recorder) return lines;
    for (std::size_t i = 0; i < groups.size(); ++i)
        record_group(groups[i], i, counts.own_hours, lines, *recorder);
    return lines;
}

} // namespace backplate
