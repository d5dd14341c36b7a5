#pragma once

#include <optional>
#include <string>

#include "pricing/request/node.h"

namespace backplate {

/// The decimal mark of the user's settings, read without switching the program's locale.
char user_decimal_mark();

/// What was typed into a number field: a number where it is one with this decimal mark, else the
/// text as it stands, so that the check of the request names place and expectation. Nothing for
/// an empty field.
std::optional<Node> typed_number(const std::string& text, char decimal_mark);
std::optional<Node> typed_text(const std::string& text);
/// "yes" or "no" in any case and by their first letter; else the text.
std::optional<Node> typed_flag(const std::string& text);
/// An amount as the request holds it: a text with a point.
std::optional<Node> typed_money(const std::string& text, char decimal_mark);
/// Words between commas as a list of texts.
std::optional<Node> typed_words(const std::string& text);

/// A value as its field shows it, a figure by signal as its default, words with commas; empty for
/// an absent one and for what no field can show.
std::string shown(const Node* value, char decimal_mark);

} // namespace backplate
