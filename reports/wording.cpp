#include "reports/wording.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace backplate {
namespace {

constexpr std::size_t most_further = 4;

/// " Also: A; B and 12 more." of the parameter "further", whose places stand with "; " between.
std::string further_text(std::string_view places) {
    std::string text;
    for (std::size_t count = 0; !places.empty(); ++count) {
        if (count == most_further) {
            std::size_t more = 1;
            for (auto at = places.find("; "); at != std::string_view::npos;
                 at = places.find("; ", at + 2))
                ++more;
            return text + " and " + std::to_string(more) + " more.";
        }
        const auto end = std::min(places.find("; "), places.size());
        text += (text.empty() ? " Also: " : "; ") + std::string(places.substr(0, end));
        places.remove_prefix(std::min(end + 2, places.size()));
    }
    return text + ".";
}

} // namespace

std::string finding_text(const Finding& finding, const RuleBook& rules) {
    const FindingRow* row = rules.find_finding(finding.code);
    std::string text = row ? row->text : finding.code;
    for (const auto& [name, value] : finding.params) {
        const std::string mark = "{" + name + "}";
        for (auto at = text.find(mark); at != std::string::npos;
             at = text.find(mark, at + value.size()))
            text.replace(at, mark.size(), value);
    }
    for (const auto& [name, value] : finding.params)
        if (name == "further" && !value.empty()) text += further_text(value);
    return text;
}

std::string finding_title(const Finding& finding, const RuleBook& rules) {
    const FindingRow* row = rules.find_finding(finding.code);
    return row ? row->title : finding.code;
}

std::string severity_word(Severity severity) {
    switch (severity) {
    case Severity::note: return "note";
    case Severity::warning: return "warning";
    case Severity::stop: return "stop";
    }
    return {};
}

std::string section_title(const std::string& section) {
    constexpr std::array<std::array<std::string_view, 2>, 6> titles{{{"scope", "Scope"},
                                                                     {"option", "Options"},
                                                                     {"exclusion", "Not included"},
                                                                     {"assumption", "Assumptions"},
                                                                     {"caution", "Cautions"},
                                                                     {"terms", "Terms"}}};
    for (const auto& [key, title] : titles)
        if (key == section) return std::string(title);
    return section;
}

std::vector<const Finding*> further_cautions(const Estimate& estimate, const RuleBook& rules) {
    const auto said = [&](const std::string& code) {
        return std::any_of(estimate.offer_texts.begin(), estimate.offer_texts.end(),
                           [&](const OfferText& text) {
                               return std::find(text.instead_of.begin(), text.instead_of.end(),
                                                code) != text.instead_of.end();
                           });
    };
    std::vector<const Finding*> result;
    for (const Finding& finding : estimate.findings) {
        const FindingRow* row = rules.find_finding(finding.code);
        if (row && row->caution && !said(finding.code)) result.push_back(&finding);
    }
    return result;
}

std::string plain_words(const std::string& word) {
    std::string text = word;
    for (char& c : text)
        if (c == '_') c = ' ';
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

} // namespace backplate
