#include "reports/wording.h"

#include <algorithm>
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

std::string plain_words(const std::string& word) {
    std::string text = word;
    for (char& c : text)
        if (c == '_') c = ' ';
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

} // namespace backplate
