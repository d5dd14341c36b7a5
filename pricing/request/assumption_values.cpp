#include "pricing/request/assumption_values.h"

#include <algorithm>
#include <string_view>

#include "pricing/request/check_values.h"
#include "pricing/request/node_values.h"
#include "pricing/request/request_keys.h"
#include "pricing/values/document_units.h"

namespace backplate {
namespace {

std::string parent_of(const std::string& pointer) { return pointer.substr(0, pointer.rfind('/')); }

std::string with_blanks(std::string word) {
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

std::string number_as_printed(const Node& node) {
    const auto exact = exact_value(node);
    return exact ? short_text(*exact) : node.text;
}

std::string spoken(const Node& node) {
    switch (node.kind) {
    case Node::Kind::null: return "none";
    case Node::Kind::flag: return node.flag ? "yes" : "no";
    case Node::Kind::number: return number_as_printed(node);
    case Node::Kind::text: return with_blanks(node.text);
    default: return json_line(node);
    }
}

std::string spoken_at(const Node& filled, const std::string& pointer) {
    const Node* node = at_pointer(filled, pointer);
    return spoken(node ? *node : Node());
}

std::string text_at(const Node& filled, const std::string& pointer) {
    const Node* node = at_pointer(filled, pointer);
    return node && node->is(Node::Kind::text) ? node->text : std::string();
}

bool flag_at(const Node& filled, const std::string& pointer) {
    const Node* node = at_pointer(filled, pointer);
    return node && node->flag;
}

std::string joined(const std::vector<std::string>& parts, std::string_view separator,
                   std::string_view last) {
    std::string result;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) result += i + 1 == parts.size() ? last : separator;
        result += parts[i];
    }
    return result;
}

void add_once(std::vector<std::string>& parts, std::string part) {
    if (std::find(parts.begin(), parts.end(), part) == parts.end())
        parts.push_back(std::move(part));
}

/// The place of a key that stands once in a job or once in a box; "boxes[]" is the box.
std::string place_of(const std::string& key, std::size_t box) {
    std::string pointer;
    for (const KeyStep& step : key_steps(key)) {
        pointer = step_down(pointer, step.name);
        if (step.list) pointer = step_down(pointer, box);
    }
    return pointer;
}

/// "20", or with exceptions "DO 10 %, others 20": the sentence sets the last sign.
std::string spare_percent(const Node& filled) {
    const Node* percent = at_pointer(filled, "/spare/percent");
    if (!percent) return {};
    std::string own;
    for (const Member& each : percent->members)
        if (each.key != "default" && !each.value.is(Node::Kind::null))
            own += each.key + " " + spoken(each.value) + " %, ";
    const std::string others = spoken_at(filled, "/spare/percent/default");
    return own.empty() ? others : own + "others " + others;
}

/// Parts of the scope that bear the word, in the order of the rows.
std::string scope_with(const Node& filled, std::string_view word, const RuleBook& rules) {
    constexpr std::string_view lead = "scope.";
    std::vector<std::string> parts;
    for (const DefaultRow& row : rules.defaults)
        if (row.key.starts_with(lead) && text_at(filled, place_of(row.key, 0)) == word)
            parts.push_back(with_blanks(row.key.substr(lead.size())));
    return parts.empty() ? "nothing" : joined(parts, ", ", ", ");
}

/// "DO 2-wire, CNT 3-wire": the signals of the open lines with what was taken.
std::string by_signal(const Node& filled, const std::vector<const FilledValue*>& open,
                      std::string_view unit) {
    std::vector<std::string> parts;
    for (const FilledValue* value : open)
        add_once(parts, text_at(filled, parent_of(value->pointer) + "/signal") + " " +
                            spoken_at(filled, value->pointer) + std::string(unit));
    return joined(parts, ", ", ", ");
}

/// "DI 0 A and AO_MA 0.022 A fed from this box, CNT fed from this box, DO 0.25 A fed from
/// elsewhere": the amperes only where they were open, the feed always.
std::string field_load(const Node& filled, const std::vector<const FilledValue*>& open) {
    std::vector<std::string> with_amps[2], bare[2]; // fed from this box, from elsewhere
    std::vector<std::string> lines;
    for (const FilledValue* value : open) add_once(lines, parent_of(value->pointer));
    for (const std::string& line : lines) {
        const bool amps_open = std::any_of(open.begin(), open.end(), [&](const FilledValue* value) {
            return value->pointer == line + "/amps";
        });
        const int feed = flag_at(filled, line + "/fed_from_box") ? 0 : 1;
        const std::string signal = text_at(filled, line + "/signal");
        if (amps_open)
            add_once(with_amps[feed], signal + " " + spoken_at(filled, line + "/amps") + " A");
        else
            add_once(bare[feed], signal);
    }
    std::vector<std::string> parts;
    for (const int feed : {0, 1})
        for (const auto* signals : {&with_amps[feed], &bare[feed]})
            if (!signals->empty())
                parts.push_back(joined(*signals, ", ", " and ") +
                                (feed == 0 ? " fed from this box" : " fed from elsewhere"));
    return joined(parts, ", ", ", ");
}

std::string equipment_texts(const Node& filled, const std::vector<const FilledValue*>& open) {
    std::vector<std::string> parts;
    for (const FilledValue* value : open)
        add_once(parts, text_at(filled, parent_of(value->pointer) + "/text"));
    return joined(parts, ", ", ", ");
}

bool is_inch(const Node& filled) { return text_at(filled, "/job/units") == "inch"; }

std::string temperature(const Node& filled, const std::string& pointer) {
    const Node* node = at_pointer(filled, pointer);
    return node ? stated_temperature_text(number_value(*node).value_or(0), is_inch(filled)) : "";
}

std::string distance(const Node& filled, const std::string& pointer) {
    const Node* node = at_pointer(filled, pointer);
    return node ? distance_text(number_value(*node).value_or(0), is_inch(filled)) : "";
}

/// Unstated spare is wired for channels.
std::string spare_kind(const Node& filled) {
    const std::string kind = text_at(filled, "/spare/kind");
    return kind.empty() ? "wired" : with_blanks(kind);
}

std::string tax(const Node& filled) {
    const Node* percent = at_pointer(filled, "/commercial/tax_percent");
    if (!percent || percent->is(Node::Kind::null)) return "tax not included";
    return "tax of " + spoken(*percent) + " %";
}

/// What the sentences name otherwise than by a key of their group.
void add_special(SentenceValues& values, const Node& filled,
                 const std::vector<const FilledValue*>& open, const RuleBook& rules) {
    const std::string group = open.front()->row->group;
    const std::string box = step_down("/boxes", open.front()->box);
    if (group == "spare") {
        values["percent"] = spare_percent(filled);
        values["kind"] = spare_kind(filled);
    } else if (group == "scope_included" || group == "scope_excluded") {
        values["included"] = scope_with(filled, "included", rules);
        values["excluded"] = scope_with(filled, "excluded", rules);
    } else if (group == "link") {
        values["box"] = text_at(filled, box + "/name");
        values["length"] = distance(filled, box + "/link/length_m");
    } else if (group == "wiring") {
        values["signals_and_wiring"] = by_signal(filled, open, "");
    } else if (group == "field_load") {
        values["signals_amps_and_feed"] = field_load(filled, open);
    } else if (group == "signal_volts") {
        values["signals_and_volts"] = by_signal(filled, open, " V");
    } else if (group == "site_climate") {
        values["ambient_low"] = temperature(filled, box + "/site/ambient_c/0");
        values["ambient_high"] = temperature(filled, box + "/site/ambient_c/1");
        values["humidity"] = spoken_at(filled, box + "/site/humidity_percent");
        values["altitude"] = distance(filled, box + "/site/altitude_m");
    } else if (group == "offer") {
        values["tax"] = tax(filled);
    } else if (group == "equipment_data") {
        values["equipment"] = equipment_texts(filled, open);
    }
}

} // namespace

SentenceValues sentence_values(const Node& filled, const std::vector<const FilledValue*>& open,
                               const RuleBook& rules) {
    SentenceValues values;
    const FilledValue& first = *open.front();
    for (const DefaultRow& row : rules.defaults) {
        if (row.group != first.row->group) continue;
        const std::string place = place_of(row.key, first.box);
        if (const Node* node = at_pointer(filled, place))
            values[place.substr(place.rfind('/') + 1)] = spoken(*node);
    }
    add_special(values, filled, open, rules);
    return values;
}

bool is_printed(const Node& filled, const FilledValue& value) {
    const std::string& group = value.row->group;
    const std::string owner = parent_of(value.pointer);
    if (group == "link") {
        const auto controller = text_at(filled, step_down("/boxes", value.box) + "/controlled_by");
        return controller != "own" && controller != "none";
    }
    if (group == "signal_volts") {
        const Node* volts = at_pointer(filled, value.pointer);
        return volts && !volts->is(Node::Kind::null) && number_value(*volts) != 24.0;
    }
    if (group == "equipment_data") {
        if (text_at(filled, owner + "/text").empty()) return false;
        const Node* other = at_pointer(filled, owner + "/amps"); // at another voltage
        if (value.pointer.ends_with("/amps_24v") && other && !other->is(Node::Kind::null))
            return false;
        const std::string where = text_at(filled, owner + "/where");
        return !value.pointer.ends_with("_mm") || where.empty() || where == "rail" ||
               where == "plate";
    }
    return true;
}

} // namespace backplate
