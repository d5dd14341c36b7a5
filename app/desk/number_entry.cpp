#include "app/desk/number_entry.h"

#include <algorithm>

#include <langinfo.h>
#include <locale.h>

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(" \t\r\n");
    if (first == std::string::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

} // namespace

char user_decimal_mark() {
    const locale_t user = newlocale(LC_NUMERIC_MASK, "", nullptr);
    if (!user) return '.';
    const std::string mark = nl_langinfo_l(RADIXCHAR, user);
    freelocale(user);
    return mark == "," ? ',' : '.';
}

std::optional<Node> typed_number(const std::string& text, char decimal_mark) {
    const std::string entry = trimmed(text);
    if (entry.empty()) return std::nullopt;
    std::string plain = entry;
    const bool foreign_mark = decimal_mark != '.' && plain.find('.') != std::string::npos;
    std::replace(plain.begin(), plain.end(), decimal_mark, '.');
    const auto number = parse_decimal(plain);
    if (foreign_mark || !number) return Node::make_text(entry);
    return Node::make_number(number->text());
}

std::optional<Node> typed_text(const std::string& text) {
    const std::string entry = trimmed(text);
    return entry.empty() ? std::nullopt : std::optional(Node::make_text(entry));
}

std::string shown(const Node* value, char decimal_mark) {
    if (!value) return {};
    if (value->is(Node::Kind::text)) return value->text;
    if (value->is(Node::Kind::object)) return shown(value->find("default"), decimal_mark);
    if (!value->is(Node::Kind::number)) return {};
    std::string text = value->text;
    std::replace(text.begin(), text.end(), '.', decimal_mark);
    return text;
}

} // namespace backplate
