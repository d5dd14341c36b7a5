#include "pricing/job/findings.h"

#include <algorithm>

namespace backplate {

void FindingSink::add(const std::string& code, std::string where, Params params) {
    const FindingRow* row = rules_.find_finding(code);
    if (!row) return;
    const auto box_of = [](const Params& list) {
        for (const auto& [name, value] : list)
            if (name == "box") return value;
        return std::string{};
    };
    for (const Finding& other : out_)
        if (other.code == code && box_of(other.params) == box_of(params)) return;
    out_.push_back({code, row->severity, std::move(where), std::move(params)});
}

double FindingSink::limit(const std::string& code) const {
    const FindingRow* row = rules_.find_finding(code);
    return row && row->limit ? row->limit->number() : 0;
}

void sort_findings(std::vector<Finding>& findings, const RuleBook& rules) {
    const auto place = [&](const Finding& finding) {
        const auto row =
            std::find_if(rules.findings.begin(), rules.findings.end(),
                         [&](const FindingRow& at) { return at.code == finding.code; });
        return row - rules.findings.begin();
    };
    std::stable_sort(findings.begin(), findings.end(), [&](const Finding& a, const Finding& b) {
        if (a.severity != b.severity) return a.severity > b.severity;
        return place(a) < place(b);
    });
}

std::string box_path(std::size_t index) {
    return "/boxes/" + steps_text(static_cast<std::int64_t>(index), 0);
}

namespace {

bool has(const std::vector<std::string>& words, const char* word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

void spare_finding(const BidRequest& request, FindingSink& sink) {
    const SpareRule& spare = request.spare;
    const bool installed = spare.basis == SpareBasis::of_installed;
    const bool minimum =
        spare.minimum_channels.fallback > 0 || !spare.minimum_channels.exceptions.empty();
    if (spare.stated && !installed && !minimum) return;
    const Box& box = request.boxes.front();
    if (box.points.empty()) return;
    const PointLine& first = box.points.front();
    const Demand demand = demand_of(box, spare, sink.rules(), 0);
    sink.add("SPARE_BASIS", "/spare",
             {{"percent", spare.percent.of(first.signal).text()},
              {"basis", installed ? "of the installed channels" : "of the points used"},
              {"minimum", steps_text(spare.minimum_channels.of(first.signal), 0)},
              {"signal", first.signal},
              {"required", steps_text(demand.signals.front().required, 0)},
              {"used", steps_text(demand.signals.front().used, 0)}});
}

void circumstance_findings(const BidRequest& request, FindingSink& sink) {
    const auto& words = request.circumstances;
    const std::string where = "/circumstances";
    const std::string not_in_price = "not in the price";
    if (has(words, "vibration")) sink.add("VIBRATION", where, {{"decision", not_in_price}});
    if (has(words, "hazardous_area")) sink.add("HAZARD_AREA", where);
    if (has(words, "safety_function"))
        sink.add("SAFETY_SCOPE", where, {{"decision", not_in_price}});
    if (has(words, "unit_prices")) sink.add("UNIT_PRICES", where, {{"signals", "no signal yet"}});
    if (has(words, "unusual_terms")) sink.add("TERMS", where);
    if (has(words, "scope_moving")) sink.add("SCOPE_MOVING", where);
    if (has(words, "alternates")) sink.add("ALTERNATE", where, {{"count", "0"}});
    if (has(words, "second_supply"))
        sink.add("SECOND_SUPPLY", where,
                 {{"volts", "another voltage, unstated"},
                  {"signal", "further loads"},
                  {"box", request.boxes.front().name}});
    if (has(words, "site_work") || request.scope.site_days > sink.limit("SITE_LABOUR"))
        sink.add("SITE_LABOUR", "/scope/site_days",
                 {{"site_days", number_text(request.scope.site_days)}, {"decision", not_in_price}});
    if (has(words, "foreign_currency"))
        sink.add("CURRENCY", "/job/currency",
                 {{"currency", request.currency},
                  {"rate", "a rate not stated"},
                  {"date", request.date.text()}});
}

} // namespace

void request_findings(const BidRequest& request, FindingSink& sink) {
    spare_finding(request, sink);
    circumstance_findings(request, sink);
    const ScopeOfSupply& scope = request.scope;
    const std::string& term = request.commercial.delivery_term;
    if (term != "EXW")
        sink.add("DUTY_FREIGHT", "/commercial/delivery_term",
                 {{"term", term},
                  {"duties", "the duties of that term"},
                  {"amount", scope.transport == "included" ? "freight as listed" : "nothing"}});
    const bool carriage = term == "CPT" || term == "CIP" || term == "DAP" || term == "DPU" ||
                          term == "DDP" || term == "CFR" || term == "CIF";
    if (carriage && scope.transport == "excluded")
        sink.add("SCOPE_CONTRADICTION", "/scope", {{"what", "Carriage"}});
    if (scope.commissioning == "excluded" && scope.site_days > 0)
        sink.add("SCOPE_CONTRADICTION", "/scope", {{"what", "Commissioning at the site"}});
    if (request.estimate_class >= sink.limit("CLASS5"))
        sink.add("CLASS5", "/job/estimate_class",
                 {{"estimate_class", steps_text(request.estimate_class, 0)},
                  {"low", request.estimate_class == 5 ? "-50 %" : "-30 %"},
                  {"high", request.estimate_class == 5 ? "+100 %" : "+50 %"}});
    if (request.due && request.due->days - request.date.days < sink.limit("DUE_SOON"))
        sink.add("DUE_SOON", "/job/due", {{"due", request.due->text()}});
    if (!request.assumptions.empty())
        sink.add("ASSUMPTIONS", "#/assumptions",
                 {{"count", steps_text(static_cast<std::int64_t>(request.assumptions.size()), 0)}});
}

} // namespace backplate
