#include <algorithm>
#include <set>

#include "pricing/job/findings.h"

namespace backplate {
namespace {

using Panels = std::vector<PanelChoice>;

const Box& box_of(const PanelChoice& choice) { return *choice.search->facts.box; }

std::string hours_text(double hours) { return number_text(hours, 1) + " h"; }

/// Hours of the rows that `wanted` names, before shares that hang on them.
template <class Wanted> double hours_of_rows(const PanelChoice& choice, const Wanted& wanted) {
    if (!choice.design) return 0;
    double micro_hours = 0;
    for (const LabourPlan::Entry& entry : choice.search->plan.counted)
        if (wanted(*entry.norm))
            micro_hours += static_cast<double>(entry.micro_hours) *
                           entry.driver.count(choice.design->counts, entry.driver.of) /
                           entry.driver.parts;
    return micro_hours / 1e6;
}

double hours_of_activities(const Estimate& estimate, std::initializer_list<const char*> names) {
    double hours = 0;
    for (const LabourLine& line : estimate.labour)
        for (const char* name : names)
            if (line.activity == name) hours += line.hours.number();
    return hours;
}

/// What hours rows that hang on a condition put into the price.
std::string decision(const Panels& choices, const std::string& term) {
    double hours = 0;
    for (const PanelChoice& choice : choices)
        hours += hours_of_rows(choice, [&](const LabourNorm& norm) {
            return norm.condition.find(term) != std::string::npos;
        });
    return hours > 0 ? "in the price with " + hours_text(hours) : "not in the price";
}

std::string approval_decision(const PanelChoice& choice) {
    const double hours = hours_of_rows(choice, [](const LabourNorm& norm) {
        return norm.condition.find("approvals") != std::string::npos;
    });
    return hours > 0 ? "not in the price, but for " + hours_text(hours) + " of papers"
                     : "not in the price";
}

/// A sentence with the parts of the bill that an approval is asked of and that do not state it.
std::string parts_without_approval(const PanelChoice& choice) {
    if (!choice.design) return " No part is chosen.";
    std::set<std::string> keys;
    bool asked_of_parts = false;
    for (const ApprovalRow& row : choice.search->rules->approval_parts) {
        const auto& asked = box_of(choice).site.approvals;
        if (std::find(asked.begin(), asked.end(), row.approval) == asked.end()) continue;
        asked_of_parts = true;
        for (const BillItem& item : choice.design->bill)
            if (item.part && !item.part->states_approval(row.approval) &&
                std::find(row.kinds.begin(), row.kinds.end(), item.part->kind) != row.kinds.end())
                keys.insert(item.part->key);
    }
    std::string text;
    for (const std::string& key : keys) text += (text.empty() ? "" : ", ") + key;
    if (!asked_of_parts) return " No rule asks it of single parts.";
    return text.empty() ? " The parts that it is asked of state it."
                        : " These parts do not state it: " + text + ".";
}

void circumstance_findings(const Estimate& estimate, const Panels& choices, FindingSink& sink) {
    const BidRequest& request = estimate.request;
    const std::string where = "/circumstances";
    if (has_circumstance(request, "vibration"))
        sink.add("VIBRATION", where,
                 {{"decision", decision(choices, "circumstance.vibration=yes")}});
    if (has_circumstance(request, "safety_function"))
        sink.add("SAFETY_SCOPE", where,
                 {{"decision", decision(choices, "circumstance.safety_function=yes")}});
    double load = 0;
    for (const PanelChoice& choice : choices)
        if (choice.design) load += choice.design->all_on.value * box_of(choice).quantity;
    if (has_circumstance(request, "battery_budget") && estimate.buildable)
        sink.add("BATTERY_BUDGET", where, {{"load", number_text(load, 2)}});
    if (has_circumstance(request, "obsolete_parts"))
        sink.add("OBSOLETE", where,
                 {{"part", "A part that the enquiry names"},
                  {"state", "said to be going out of production"},
                  {"successor", "not named"}});
    if (has_circumstance(request, "foreign_currency"))
        sink.add("CURRENCY", "/job/currency",
                 {{"currency", request.currency},
                  {"rate", "a rate not stated"},
                  {"date", request.date.text()}});
}

void site_work_finding(const Estimate& estimate, FindingSink& sink) {
    const BidRequest& request = estimate.request;
    const double days = request.scope.site_days;
    if (!has_circumstance(request, "site_work") && days <= sink.limit("SITE_LABOUR")) return;
    const double travel = hours_of_activities(estimate, {"travel"});
    const bool priced = hours_of_activities(estimate, {"site_days", "commissioning"}) > 0;
    sink.add("SITE_LABOUR", "/scope/site_days",
             {{"site_days", priced ? number_text(days) : "0"},
              {"decision", travel > 0 ? "in the price with " + hours_text(travel)
                                      : std::string("not in the price")}});
}

void paper_findings(const Estimate& estimate, FindingSink& sink) {
    const ScopeOfSupply& scope = estimate.request.scope;
    if (scope.documents != "full" && scope.languages <= sink.limit("DOC_LABOUR") &&
        scope.witness_days <= 0)
        return;
    sink.add("DOC_LABOUR", "/scope",
             {{"documents", scope.documents},
              {"languages", steps_text(scope.languages, 0)},
              {"witness_days", number_text(scope.witness_days)},
              {"hours", number_text(hours_of_activities(estimate, {"documents", "witness"}), 1)}});
}

/// Demanded in one place of the request and excluded in another.
void contradiction_findings(const BidRequest& request, FindingSink& sink) {
    const ScopeOfSupply& scope = request.scope;
    const auto add = [&](bool contradicts, const char* what, const char* further) {
        if (contradicts) sink.add("SCOPE_CONTRADICTION", "/scope", {{"what", what}}, further);
    };
    add(scope.commissioning == "excluded" && scope.site_days > 0, "Commissioning at the site",
        "commissioning at the site");
    add(scope.works_test == "excluded" && scope.witness_days > 0, "A witnessed works test",
        "a witnessed works test");
    add(scope.documents == "none" && scope.languages > 1, "Documents in several languages",
        "documents in several languages");
}

} // namespace

void scope_findings(const Estimate& estimate, const Panels& choices, FindingSink& sink) {
    const BidRequest& request = estimate.request;
    circumstance_findings(estimate, choices, sink);
    site_work_finding(estimate, sink);
    paper_findings(estimate, sink);
    contradiction_findings(request, sink);
    for (const PanelChoice& choice : choices) {
        const Box& box = box_of(choice);
        if (!box.site.approvals.empty()) {
            std::string approvals;
            for (const std::string& word : box.site.approvals)
                approvals += (approvals.empty() ? "" : ", ") + word;
            sink.add("APPROVAL", box_path(box.index) + "/site/approvals",
                     {{"approvals", approvals},
                      {"box", box.name},
                      {"decision", approval_decision(choice)},
                      {"unstated", parts_without_approval(choice)}});
        }
        const double least = sink.limit("SOFTPOINTS");
        if (box.work.soft_points > least || box.work.network_devices > least)
            sink.add("SOFTPOINTS", box_path(box.index) + "/work",
                     {{"soft_points", steps_text(box.work.soft_points, 0)},
                      {"devices", steps_text(box.work.network_devices, 0)},
                      {"hours", number_text(hours_of_rows(choice,
                                                          [](const LabourNorm& norm) {
                                                              return norm.driver == "soft point" ||
                                                                     norm.driver ==
                                                                         "network device";
                                                          }),
                                            1)}});
    }
}

} // namespace backplate
