#include <algorithm>
#include <array>

#include "pricing/job/findings.h"

namespace backplate {
namespace {

using Holds = bool (*)(const Estimate&);

bool always(const Estimate&) { return true; }

/// In the scope, or not stated with a default that includes it.
bool in_scope(const std::string& word) { return word == "included" || word == "not_stated"; }

bool has_points(const Estimate& estimate) {
    return std::any_of(estimate.points.begin(), estimate.points.end(),
                       [](const PointResult& point) { return point.used > 0; });
}

bool packed(const Estimate& estimate) {
    return in_scope(estimate.request.scope.packing) &&
           std::any_of(estimate.request.boxes.begin(), estimate.request.boxes.end(),
                       [](const Box& box) {
                           return box.choices.enclosure == EnclosureChoice::choose ||
                                  box.choices.enclosure == EnclosureChoice::part;
                       });
}

/// An activity that costs hours where `in_scope` holds; hours of `or_by` stand in for it.
struct Expected {
    std::string_view activity;
    Holds in_scope;
    std::string_view or_by = {};
};

/// Source: trade-practice 1.3 check 13.
constexpr auto expected_activities = std::array{
    Expected{"purchasing", always},
    Expected{"engineering", always},
    Expected{"drawings", [](const Estimate& e) { return in_scope(e.request.scope.drawings); }},
    Expected{"mounting", always},
    Expected{"wiring", always},
    Expected{"software",
             [](const Estimate& e) { return in_scope(e.request.scope.software) && has_points(e); }},
    Expected{"works_test", [](const Estimate& e) { return in_scope(e.request.scope.works_test); }},
    Expected{"witness", [](const Estimate& e) { return e.request.scope.witness_days > 0; }},
    Expected{"documents", [](const Estimate& e) { return e.request.scope.documents != "none"; }},
    Expected{"commissioning",
             [](const Estimate& e) { return e.request.scope.commissioning == "included"; },
             "site_days"},
    Expected{"site_days", [](const Estimate& e) { return e.request.scope.site_days > 0; }},
    Expected{"packing", packed},
    Expected{"project_lead", always}};

bool has_hours(const Estimate& estimate, std::string_view activity) {
    return std::any_of(estimate.labour.begin(), estimate.labour.end(), [&](const LabourLine& line) {
        return line.activity == activity && line.hours.steps() > 0;
    });
}

/// A norm of 0 with a note says why there are none.
bool has_reason(const RuleBook& rules, std::string_view activity) {
    return std::any_of(rules.labour.begin(), rules.labour.end(), [&](const LabourNorm& norm) {
        return norm.activity == activity && norm.rule.number() == 0 && !norm.note.empty();
    });
}

std::string plain(std::string_view word) {
    std::string text(word);
    std::replace(text.begin(), text.end(), '_', ' ');
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

std::string place_of(const Estimate& estimate, std::string_view activity) {
    for (std::size_t i = 0; i < estimate.labour.size(); ++i)
        if (estimate.labour[i].activity == activity)
            return "#/labour/" + steps_text(static_cast<std::int64_t>(i), 0);
    return "#/labour";
}

} // namespace

void hours_findings(const Estimate& estimate, FindingSink& sink) {
    for (const Expected& each : expected_activities) {
        if (!each.in_scope(estimate) || has_hours(estimate, each.activity)) continue;
        if (!each.or_by.empty() && has_hours(estimate, each.or_by)) continue;
        if (has_reason(sink.rules(), each.activity)) continue;
        sink.add("HOURS_ZERO", place_of(estimate, each.activity),
                 {{"activity", plain(each.activity)}}, plain(each.activity));
    }
}

} // namespace backplate
