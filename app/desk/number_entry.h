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

/// A value as its field shows it, a figure by signal as its default; empty for an absent one and
/// for what no field can show.
std::string shown(const Node* value, char decimal_mark);

} // namespace backplate
