#include "pricing/request/default_values.h"

#include <string_view>

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

std::string_view between(std::string_view text) { return text.substr(1, text.size() - 2); }

Node literal(std::string_view text);

Node literal_list(std::string_view items) {
    Node list = Node::make_list();
    while (!items.empty()) {
        const auto end = std::min(items.find(','), items.size());
        list.items.push_back(literal(items.substr(0, end)));
        items.remove_prefix(std::min(end + 1, items.size()));
        if (items.starts_with(' ')) items.remove_prefix(1);
    }
    return list;
}

Node literal(std::string_view text) {
    if (text == "null") return Node::make_null();
    if (text == "true" || text == "false") return Node::make_flag(text == "true");
    if (text == "{}") return Node::make_object();
    if (text.starts_with('[') && text.ends_with(']')) return literal_list(between(text));
    if (parse_decimal(text)) return Node::make_number(std::string(text));
    return Node::make_text(std::string(text));
}

Node number_or_null(const std::optional<Decimal>& value) {
    return value ? Node::make_number(value->text()) : Node::make_null();
}

/// The text that stands under the key, or nothing.
std::string_view text_at(const Node& owner, std::string_view key) {
    const Node* node = owner.find(key);
    return node && node->is(Node::Kind::text) ? std::string_view(node->text) : std::string_view();
}

bool states(const Node& owner, std::string_view key) {
    const Node* node = owner.find(key);
    return node && !node->is(Node::Kind::null);
}

/// A price has a margin or a markup, never both.
bool other_way_stated(const DefaultRow& row, const Node& owner) {
    return row.key == "commercial.margin_percent" && states(owner, "markup_percent");
}

std::string numbered(std::string text, std::size_t number) {
    constexpr std::string_view mark = "{n}";
    const auto at = text.find(mark);
    if (at != std::string::npos)
        text.replace(at, mark.size(), steps_text(static_cast<std::int64_t>(number), 0));
    return text;
}

} // namespace

bool follows_north_america(const Node& sent, const RuleBook& rules) {
    const Node* practice = at_pointer(sent, "/job/practice");
    if (practice && practice->is(Node::Kind::text)) return practice->text == "north_america";
    const auto shop = rules.texts.find("shop/practice");
    return shop != rules.texts.end() && shop->second == "north_america";
}

std::optional<Node> DefaultValues::value(const DefaultRow& row, const Node& owner,
                                         std::size_t index) const {
    constexpr std::string_view rule = "rule:", signal = "signal:";
    const std::string& written = text(row);
    if (written == "required") return std::nullopt;
    if (written == "today") return Node::make_text(today_.text());
    if (other_way_stated(row, owner)) return Node::make_null();
    if (written.starts_with(signal)) return of_signal(written.substr(signal.size()), owner);
    if (!written.starts_with(rule)) return literal(numbered(written, index + 1));
    const auto found = rules_.texts.find(written.substr(rule.size()));
    return found == rules_.texts.end() ? Node::make_null() : literal(found->second);
}

Node DefaultValues::of_signal(const std::string& column, const Node& owner) const {
    const Signal* signal = rules_.find_signal(text_at(owner, "signal"));
    if (!signal) return Node::make_null();
    if (column == "wiring") return Node::make_text(signal->wiring);
    if (column == "amps") return number_or_null(signal->amps);
    if (column == "volts_iec") return number_or_null(signal->volts_iec);
    if (column == "volts_north_america") return number_or_null(signal->volts_north_america);
    const std::string_view via = text_at(owner, "via");
    const bool direct = via.empty() || via == "direct";
    return Node::make_flag(direct ? signal->fed_from_box
                                  : signal->fed_from_box_with_via.value_or(signal->fed_from_box));
}

} // namespace backplate
