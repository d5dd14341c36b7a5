#include "app/desk/number_entry.h"

#include <algorithm>

#include <langinfo.h>
#include <locale.h>
#include <strings.h>

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

std::optional<Node> typed_flag(const std::string& text) {
    const std::string entry = trimmed(text);
    if (entry.empty()) return std::nullopt;
    for (const bool flag : {true, false}) {
        std::string word = flag ? "yes" : "no";
        word.resize(std::min(word.size(), entry.size()));
        if (strcasecmp(entry.c_str(), word.c_str()) == 0) return Node::make_flag(flag);
    }
    return Node::make_text(entry);
}

std::optional<Node> typed_money(const std::string& text, char decimal_mark) {
    const auto number = typed_number(text, decimal_mark);
    return number ? std::optional(Node::make_text(number->text)) : std::nullopt;
}

std::optional<Node> typed_words(const std::string& text) {
    Node list = Node::make_list();
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(',', at), text.size());
        if (auto word = typed_text(text.substr(at, end - at)))
            list.items.push_back(*std::move(word));
        at = end + 1;
    }
    return list.items.empty() ? std::nullopt : std::optional(std::move(list));
}

std::string shown(const Node* value, char decimal_mark) {
    if (!value) return {};
    if (value->is(Node::Kind::text)) return value->text;
    if (value->is(Node::Kind::flag)) return value->flag ? "yes" : "no";
    if (value->is(Node::Kind::list)) {
        std::string words;
        for (const Node& item : value->items)
            words += (words.empty() ? "" : ", ") + shown(&item, decimal_mark);
        return words;
    }
    if (value->is(Node::Kind::object)) return shown(value->find("default"), decimal_mark);
    if (!value->is(Node::Kind::number)) return {};
    std::string text = value->text;
    std::replace(text.begin(), text.end(), '.', decimal_mark);
    return text;
}

} // namespace backplate
