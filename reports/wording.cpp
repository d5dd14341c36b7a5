#include "reports/wording.h"

namespace backplate {

std::string finding_text(const Finding& finding, const RuleBook& rules) {
    const FindingRow* row = rules.find_finding(finding.code);
    std::string text = row ? row->text : finding.code;
    for (const auto& [name, value] : finding.params) {
        const std::string mark = "{" + name + "}";
        for (auto at = text.find(mark); at != std::string::npos;
             at = text.find(mark, at + value.size()))
            text.replace(at, mark.size(), value);
    }
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
