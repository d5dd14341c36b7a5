#include "pricing/job/findings.h"

#include <algorithm>

namespace backplate {
namespace {

std::string box_of(const Params& params) {
    for (const auto& [name, value] : params)
        if (name == "box") return value;
    return {};
}

/// Several places in one parameter, one below the other in the order they were met.
void add_further(Finding& finding, const std::string& text) {
    if (text.empty()) return;
    for (auto& [name, value] : finding.params)
        if (name == "further") {
            if (value != text && !value.ends_with("; " + text)) value += "; " + text;
            return;
        }
    finding.params.emplace_back("further", text);
}

} // namespace

void FindingSink::add(const std::string& code, std::string where, Params params,
                      const std::string& further) {
    const FindingRow* row = rules_.find_finding(code);
    if (!row) return;
    for (Finding& other : out_)
        if (other.code == code && box_of(other.params) == box_of(params))
            return add_further(other, further);
    out_.push_back({code, row->severity, std::move(where), std::move(params)});
}

double FindingSink::limit(const std::string& code) const {
    const FindingRow* row = rules_.find_finding(code);
    return row && row->limit ? row->limit->number() : 0;
}

double FindingSink::second_limit(const std::string& code) const {
    const FindingRow* row = rules_.find_finding(code);
    return row && row->second_limit ? row->second_limit->number() : 0;
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

bool has_circumstance(const BidRequest& request, std::string_view key) {
    const auto& words = request.circumstances;
    return std::find(words.begin(), words.end(), key) != words.end();
}

} // namespace backplate
