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

/// The tree as JSON text, indented by two blanks, members in their order, ending with a newline.
std::string json_text(const Node& root);

} // namespace backplate
