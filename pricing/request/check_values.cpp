#include "pricing/request/check_values.h"

#include <algorithm>
#include <array>

#include "pricing/request/check_request.h"
#include "pricing/request/expectation.h"
#include "pricing/request/node_values.h"

namespace backplate {
namespace {

/// A value on its way through the check.
struct Visit {
    const RequestKey& key;
    const Node& node;
    const Node& owner;
    std::string pointer;
    std::size_t index = 0; ///< of the owner, where it stands in a list
};

std::string signal_of(const Node& owner) {
    const Node* signal = owner.find("signal");
    return signal && signal->is(Node::Kind::text) ? signal->text : std::string();
}

bool control_character(char c) {
    return static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t';
}

bool in_range(double value, const DefaultRow& row) {
    return !(row.minimum && value < row.minimum->number()) &&
           !(row.maximum && value > row.maximum->number());
}

bool good_number(const Node& node, const DefaultRow& row) {
    const auto value = number_value(node);
    if (!value || !in_range(*value, row)) return false;
    if (!row.decimals) return true;
    const auto exact = exact_value(node);
    return exact && to_steps(*exact, *row.decimals);
}

bool good_amount(const Node& node, const DefaultRow& row) {
    const auto exact = parse_decimal(node.text);
    return exact && to_steps(*exact, row.decimals.value_or(Money::places)) &&
           in_range(exact->number(), row);
}

class ValueCheck {
public:
    ValueCheck(const RequestKey& keys, const DefaultValues& defaults, const Words& words,
               std::vector<RequestFault>& faults)
        : keys_(keys), defaults_(defaults), words_(words), faults_(faults) {}

    void visit(const Visit& v);

private:
    void check_object(const Visit& v);
    void check_list(const Visit& v);
    void check_text(const Visit& v);
    void check_date(const Visit& v);
    void check_word(const Visit& v);
    void check_words(const Visit& v);
    void check_word_or_object(const Visit& v);
    void check_flag(const Visit& v);
    void check_number(const Visit& v);
    void check_amount(const Visit& v);
    void check_range(const Visit& v);
    void check_map(const Visit& v);

    void check_members(const Visit& v);
    void check_required(const Visit& v);
    void one_word(const Visit& v, const Node& node, const std::string& pointer);
    void unknown_key(const Visit& v, const std::string& name);
    const RequestKey* known(const RequestKey& key, const std::string& name) const;
    bool takes_null(const Visit& v) const;
    std::optional<Node> default_of(const Visit& v) const {
        return defaults_.value(v.key.row, v.owner, v.index);
    }
    std::string expected(const Visit& v) const {
        return expectation(v.key.row, words_.of(v.key.row.key, signal_of(v.owner)));
    }
    void wrong(const Visit& v) {
        fault(v.pointer, found_text(v.node) + ", expected " + expected(v));
    }
    void fault(const std::string& where, std::string text) {
        faults_.push_back({where, std::move(text)});
    }

    struct TypeCheck {
        std::string_view type;
        void (ValueCheck::*check)(const Visit&);
    };
    static const std::array<TypeCheck, 16> checks;

    const RequestKey& keys_;
    const DefaultValues& defaults_;
    const Words& words_;
    std::vector<RequestFault>& faults_;
};

constexpr std::array<ValueCheck::TypeCheck, 16> ValueCheck::checks{{
    {"object", &ValueCheck::check_object},
    {"list", &ValueCheck::check_list},
    {"text", &ValueCheck::check_text},
    {"date", &ValueCheck::check_date},
    {"word", &ValueCheck::check_word},
    {"words", &ValueCheck::check_words},
    {"word_or_object", &ValueCheck::check_word_or_object},
    {"flag", &ValueCheck::check_flag},
    {"integer", &ValueCheck::check_number},
    {"number", &ValueCheck::check_number},
    {"percent", &ValueCheck::check_number},
    {"hours", &ValueCheck::check_number},
    {"money", &ValueCheck::check_amount},
    {"range", &ValueCheck::check_range},
    {"percent_map", &ValueCheck::check_map},
    {"integer_map", &ValueCheck::check_map},
}};

bool ValueCheck::takes_null(const Visit& v) const {
    const auto value = default_of(v);
    return value && value->is(Node::Kind::null);
}

void ValueCheck::visit(const Visit& v) {
    if (v.node.is(Node::Kind::null)) {
        if (!takes_null(v)) wrong(v);
        return;
    }
    for (const TypeCheck& each : checks)
        if (each.type == v.key.row.type) (this->*each.check)(v);
}

void ValueCheck::check_object(const Visit& v) {
    if (!v.node.is(Node::Kind::object)) return wrong(v);
    if (v.key.below.empty()) return; // free content
    check_members(v);
    check_required(v);
}

void ValueCheck::check_members(const Visit& v) {
    for (const Member& member : v.node.members) {
        const std::string pointer = step_down(v.pointer, member.key);
        if (const RequestKey* key = known(v.key, member.key))
            visit({*key, member.value, v.node, pointer, v.index});
        else
            unknown_key(v, member.key);
    }
}

void ValueCheck::check_required(const Visit& v) {
    for (const RequestKey& key : v.key.below) {
        if (v.node.find(key.name) || defaults_.text(key.row) != "required") continue;
        const auto words = words_.of(key.row.key, signal_of(v.node));
        fault(step_down(v.pointer, key.name),
              "is missing, expected " + expectation(key.row, words));
    }
}

const RequestKey* ValueCheck::known(const RequestKey& key, const std::string& name) const {
    const RequestKey* any_signal = key.find("{signal}");
    if (any_signal && words_.fit(std::string(signal_key), name, {}) == Words::Fit::yes)
        return any_signal;
    return name == "{signal}" ? nullptr : key.find(name);
}

const RequestKey* find_anywhere(const RequestKey& key, const std::string& name) {
    if (const RequestKey* found = key.find(name)) return found;
    for (const RequestKey& each : key.below)
        if (const RequestKey* found = find_anywhere(each, name)) return found;
    return nullptr;
}

void ValueCheck::unknown_key(const Visit& v, const std::string& name) {
    std::vector<std::string> names;
    for (const RequestKey& key : v.key.below)
        if (key.name != "{signal}") names.push_back(key.name);
    if (v.key.find("{signal}"))
        for (const std::string& signal : words_.of(std::string(signal_key)))
            names.push_back(signal);
    std::string text = "unknown key " + found_text(Node::make_text(name));
    const std::string nearest = nearest_word(name, names);
    const RequestKey* elsewhere = find_anywhere(keys_, name);
    if (!nearest.empty()) {
        text += "; nearest: " + nearest;
    } else if (elsewhere) {
        text += "; nearest: " + elsewhere->row.key;
    } else {
        text += ", expected one of";
        for (const std::string& each : names) text += (&each == &names[0] ? " " : ", ") + each;
    }
    fault(step_down(v.pointer, name), text);
}

void ValueCheck::check_list(const Visit& v) {
    const DefaultRow& row = v.key.row;
    if (!v.node.is(Node::Kind::list)) return wrong(v);
    if (!in_range(static_cast<double>(v.node.items.size()), row))
        fault(v.pointer, steps_text(static_cast<std::int64_t>(v.node.items.size()), 0) +
                             " entries, expected " + expected(v));
    for (std::size_t i = 0; i < v.node.items.size(); ++i) {
        const Node& item = v.node.items[i];
        const std::string pointer = step_down(v.pointer, i);
        const Visit entry{v.key, item, v.node, pointer, i};
        if (item.is(Node::Kind::object)) {
            check_members(entry);
            check_required(entry);
        } else {
            fault(pointer, found_text(item) + ", expected an object");
        }
    }
}

void ValueCheck::check_text(const Visit& v) {
    if (!v.node.is(Node::Kind::text)) return wrong(v);
    if (std::any_of(v.node.text.begin(), v.node.text.end(), control_character))
        fault(v.pointer, found_text(v.node) + ", expected text without control characters");
}

void ValueCheck::check_date(const Visit& v) {
    if (!v.node.is(Node::Kind::text) || !Date::parse(v.node.text)) wrong(v);
}

void ValueCheck::check_word(const Visit& v) { one_word(v, v.node, v.pointer); }

void ValueCheck::one_word(const Visit& v, const Node& node, const std::string& pointer) {
    const std::string& key = v.key.row.key;
    const std::string signal = signal_of(v.owner);
    if (!node.is(Node::Kind::text)) {
        fault(pointer, found_text(node) + ", expected " + expected(v));
        return;
    }
    const auto fit = words_.fit(key, node.text, signal);
    if (fit == Words::Fit::yes) return;
    std::string text = found_text(node);
    if (fit == Words::Fit::other_signal) {
        text += " does not go with " + signal;
    } else if (const auto nearest = nearest_word(node.text, words_.of(key, signal));
               !nearest.empty()) {
        text += " is not known; nearest: " + nearest;
    } else {
        text += " is not known";
    }
    fault(pointer, text + "; expected " + expected(v));
}

void ValueCheck::check_words(const Visit& v) {
    if (!v.node.is(Node::Kind::list)) return wrong(v);
    for (std::size_t i = 0; i < v.node.items.size(); ++i)
        one_word(v, v.node.items[i], step_down(v.pointer, i));
}

void ValueCheck::check_word_or_object(const Visit& v) {
    if (!v.node.is(Node::Kind::object)) return check_word(v);
    check_members(v);
}

void ValueCheck::check_flag(const Visit& v) {
    if (!v.node.is(Node::Kind::flag)) wrong(v);
}

void ValueCheck::check_number(const Visit& v) {
    if (!good_number(v.node, v.key.row)) wrong(v);
}

void ValueCheck::check_amount(const Visit& v) {
    if (!v.node.is(Node::Kind::text) || !good_amount(v.node, v.key.row)) wrong(v);
}

void ValueCheck::check_range(const Visit& v) {
    const auto good = [&](const Node& end) { return good_number(end, v.key.row); };
    const auto& ends = v.node.items;
    if (!v.node.is(Node::Kind::list) || ends.size() != 2 ||
        !std::all_of(ends.begin(), ends.end(), good))
        return wrong(v);
    if (*number_value(ends[0]) > *number_value(ends[1]))
        fault(v.pointer, found_text(v.node) + ": the lowest is above the highest");
}

void ValueCheck::check_map(const Visit& v) {
    if (v.node.is(Node::Kind::object)) return check_members(v);
    check_number(v);
}

} // namespace

void check_values(const Node& sent, const RequestKey& keys, const DefaultValues& defaults,
                  const Words& words, std::vector<RequestFault>& faults) {
    ValueCheck(keys, defaults, words, faults).visit({keys, sent, sent, ""});
}

std::string step_down(const std::string& pointer, std::string_view name) {
    std::string result = pointer + "/";
    for (const char c : name) {
        if (c == '~')
            result += "~0";
        else if (c == '/')
            result += "~1";
        else
            result += c;
    }
    return result;
}

std::string step_down(const std::string& pointer, std::size_t index) {
    return pointer + "/" + steps_text(static_cast<std::int64_t>(index), 0);
}

std::string found_text(const Node& node) {
    constexpr std::size_t most = 60;
    std::string text = node.is(Node::Kind::text) ? "'" + node.text + "'" : json_line(node);
    if (text.size() <= most) return text;
    std::size_t end = most;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
    return text.substr(0, end) + "…";
}

} // namespace backplate
