#pragma once

#include <string>

#include "pricing/request/node.h"

namespace backplate {

/// JSON with // and /* */ comments as a tree; numbers keep their text. Throws BadInput naming
/// `name`, line and column for bad JSON and the pointer for a repeated key.
struct ParsedJson {
    Node root;
    bool has_comments = false;
};
ParsedJson parse_json(const std::string& name, const std::string& text);

/// The comments of a text that parse_json takes, each with its marks on lines of its own; empty:
/// none.
std::string comments_of(const std::string& text);

/// The tree as JSON text, indented by two blanks, members in their order, ending with a newline.
/// `comments`: lines that stand before it.
std::string json_text(const Node& root, const std::string& comments = "");

} // namespace backplate
