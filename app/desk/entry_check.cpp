#include "app/desk/entry_check.h"

#include <algorithm>
#include <cctype>

#include "pricing/request/check_request.h"
#include "pricing/request/expectation.h"
#include "pricing/request/words.h"

namespace backplate {
namespace {

bool begins_below(const std::string& inner, const std::string& outer) {
    return inner.size() > outer.size() && inner.starts_with(outer) && inner[outer.size()] == '/';
}

std::string folded(const std::string& text, bool underscores) {
    std::string out;
    for (const char sign : text)
        if ((sign != '_' && sign != ' ') || underscores)
            out += static_cast<char>(std::tolower(static_cast<unsigned char>(sign)));
    return out;
}

} // namespace

std::vector<RequestFault> new_faults(const Node& before, const Node& after, const RuleBook& rules,
                                     Date today) {
    std::vector<RequestFault> faults = faults_as_sent(after, rules, today);
    if (faults.empty()) return faults;
    const std::vector<RequestFault> old = faults_as_sent(before, rules, today);
    std::erase_if(faults, [&](const RequestFault& fault) {
        return std::ranges::any_of(old, [&](const RequestFault& other) {
            return other.where == fault.where && other.text == fault.text;
        });
    });
    return faults;
}

bool is_about(const std::string& where, const std::string& place) {
    return where == place || begins_below(where, place) || begins_below(place, where);
}

std::optional<std::string> refusal(const Node& before, const Node& after, const std::string& place,
                                   const RuleBook& rules, Date today) {
    for (const RequestFault& fault : new_faults(before, after, rules, today))
        if (is_about(fault.where, place)) return fault.text;
    return std::nullopt;
}

std::string default_key(const std::string& pointer) {
    std::string key;
    for (std::size_t at = 1; at < pointer.size();) {
        const std::size_t end = std::min(pointer.find('/', at), pointer.size());
        const std::string step = pointer.substr(at, end - at);
        if (step.find_first_not_of("0123456789") == std::string::npos)
            key += "[]";
        else
            key += (key.empty() ? "" : ".") + step;
        at = end + 1;
    }
    return key;
}

std::string expected_at(const std::string& pointer, const RuleBook& rules) {
    std::string key = default_key(pointer);
    if (key.ends_with("ambient_c[]")) key.resize(key.size() - 2);
    const auto row = std::ranges::find(rules.defaults, key, &DefaultRow::key);
    if (row == rules.defaults.end()) return {};
    return expectation(*row, Words(rules, Node::make_object()).of(key));
}

NamedSignal named_signal(const std::string& text, const RuleBook& rules) {
    NamedSignal found;
    const std::string typed = folded(text, true);
    for (const Signal& signal : rules.signals)
        if (folded(signal.key, true) == typed) return {signal.key, {}};
    const std::string beginning = folded(text, false);
    if (beginning.empty()) return found;
    for (const Signal& signal : rules.signals)
        if (folded(signal.key, false).starts_with(beginning))
            found.candidates.push_back(signal.key);
    if (found.candidates.size() == 1) return {found.candidates.front(), {}};
    if (!found.candidates.empty()) return found;
    for (const Spelling& spelling : rules.spellings)
        if (folded(spelling.text, true) == typed && rules.find_signal(spelling.meaning))
            return {spelling.meaning, {}};
    return found;
}

} // namespace backplate
