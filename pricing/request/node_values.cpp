#include "pricing/request/node_values.h"

#include <algorithm>
#include <charconv>

namespace backplate {
namespace {

constexpr int most_places = 9;

std::optional<int> exponent_of(std::string_view text) {
    if (text.starts_with('+')) text.remove_prefix(1);
    int exponent = 0;
    const char* end = text.data() + text.size();
    const auto [stop, fault] = std::from_chars(text.data(), end, exponent);
    if (fault != std::errc{} || stop != end || exponent < -18 || exponent > 18) return std::nullopt;
    return exponent;
}

std::optional<Decimal> shifted(Decimal value, int exponent) {
    value.places -= exponent;
    for (; value.places > most_places && value.digits % 10 == 0; --value.places) value.digits /= 10;
    if (value.places > most_places) return std::nullopt;
    if (value.places >= 0) return value;
    const auto digits = to_steps({value.digits, 0}, -value.places);
    if (!digits) return std::nullopt;
    return Decimal{*digits, 0};
}

void append_escape(std::string& out, char c) {
    constexpr std::string_view hex = "0123456789abcdef";
    switch (c) {
    case '"': out += "\\\""; return;
    case '\\': out += "\\\\"; return;
    case '\n': out += "\\n"; return;
    case '\r': out += "\\r"; return;
    case '\t': out += "\\t"; return;
    default: break;
    }
    const auto code = static_cast<unsigned char>(c);
    if (code >= 0x20) {
        out += c;
        return;
    }
    out += "\\u00";
    out += hex[code >> 4];
    out += hex[code & 15];
}

std::string line_of_list(const Node& node) {
    std::string out;
    for (const Node& item : node.items) out += (out.empty() ? "" : ", ") + json_line(item);
    return "[" + out + "]";
}

std::string line_of_object(const Node& node) {
    std::string out;
    for (const Member& member : node.members)
        out += (out.empty() ? "" : ", ") + json_quoted(member.key) + ": " + json_line(member.value);
    return "{" + out + "}";
}

bool same_number(const Node& a, const Node& b) {
    const auto exact_a = exact_value(a);
    const auto exact_b = exact_value(b);
    if (exact_a && exact_b) return *exact_a == *exact_b;
    return a.text == b.text;
}

} // namespace

std::optional<Decimal> exact_value(const Node& node) {
    if (!node.is(Node::Kind::number)) return std::nullopt;
    const std::string_view text = node.text;
    const auto mark = text.find_first_of("eE");
    const auto value = parse_decimal(text.substr(0, mark));
    if (!value || mark == std::string_view::npos) return value;
    const auto exponent = exponent_of(text.substr(mark + 1));
    return exponent ? shifted(*value, *exponent) : std::nullopt;
}

std::optional<double> number_value(const Node& node) {
    if (!node.is(Node::Kind::number)) return std::nullopt;
    double value = 0;
    const char* end = node.text.data() + node.text.size();
    const auto [stop, fault] = std::from_chars(node.text.data(), end, value);
    if (fault != std::errc{} || stop != end) return std::nullopt;
    return value;
}

std::string short_text(Decimal value) {
    for (; value.places > 0 && value.digits % 10 == 0; --value.places) value.digits /= 10;
    return value.text();
}

std::string json_line(const Node& node) {
    switch (node.kind) {
    case Node::Kind::null: return "null";
    case Node::Kind::flag: return node.flag ? "true" : "false";
    case Node::Kind::number: return node.text;
    case Node::Kind::text: return json_quoted(node.text);
    case Node::Kind::list: return line_of_list(node);
    case Node::Kind::object: return line_of_object(node);
    }
    return {};
}

std::string json_quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) append_escape(out, c);
    return out + "\"";
}

bool same_value(const Node& a, const Node& b) {
    if (a.kind != b.kind) return false;
    if (a.is(Node::Kind::number)) return same_number(a, b);
    if (a.flag != b.flag || a.text != b.text || a.members.size() != b.members.size()) return false;
    const auto same_member = [&](const Member& member) {
        const Node* other = b.find(member.key);
        return other && same_value(member.value, *other);
    };
    return std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(), same_value) &&
           std::all_of(a.members.begin(), a.members.end(), same_member);
}

} // namespace backplate
