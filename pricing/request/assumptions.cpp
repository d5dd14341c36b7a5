#include "pricing/request/assumptions.h"

#include <algorithm>

#include "pricing/request/assumption_values.h"
#include "pricing/request/node_values.h"

namespace backplate {
namespace {

struct OpenGroup {
    std::string group;
    std::size_t box = 0;
    std::vector<const FilledValue*> values;
};

std::vector<OpenGroup> open_groups(const Node& filled, const std::vector<FilledValue>& values) {
    std::vector<OpenGroup> groups;
    for (const FilledValue& value : values) {
        const DefaultRow& row = *value.row;
        if (!row.assumption || row.type == "object" || !is_printed(filled, value)) continue;
        const auto found = std::find_if(groups.begin(), groups.end(), [&](const OpenGroup& group) {
            return group.group == row.group && group.box == value.box;
        });
        if (found == groups.end())
            groups.push_back({row.group, value.box, {&value}});
        else
            found->values.push_back(&value);
    }
    return groups;
}

std::string sentence(std::string_view text, const SentenceValues& values) {
    std::string result;
    while (!text.empty()) {
        const auto open = std::min(text.find('{'), text.size());
        result += text.substr(0, open);
        text.remove_prefix(open);
        const auto close = text.find('}');
        if (close == std::string_view::npos) return result + std::string(text);
        const auto found = values.find(std::string(text.substr(1, close - 1)));
        result += found == values.end() ? std::string(text.substr(0, close + 1)) : found->second;
        text.remove_prefix(close + 1);
    }
    return result;
}

Assumption assumption_of(const Node& filled, const OpenGroup& group, const RuleBook& rules) {
    const FilledValue& first = *group.values.front();
    const Node* value = at_pointer(filled, first.pointer);
    const auto text = rules.assumption_texts.find(group.group);
    return {first.pointer, value ? json_line(*value) : "null", first.row->unit,
            "defaults/" + first.row->key,
            text == rules.assumption_texts.end()
                ? std::string()
                : sentence(text->second, sentence_values(filled, group.values, rules))};
}

} // namespace

std::vector<Assumption> assumptions_of(const Node& filled, const std::vector<FilledValue>& values,
                                       const RuleBook& rules) {
    std::vector<Assumption> result;
    for (const OpenGroup& group : open_groups(filled, values)) {
        Assumption made = assumption_of(filled, group, rules);
        const bool said = std::any_of(result.begin(), result.end(), [&](const Assumption& other) {
            return other.text == made.text && (!made.text.empty() || other.rule == made.rule);
        });
        if (!said) result.push_back(std::move(made));
    }
    return result;
}

} // namespace backplate
