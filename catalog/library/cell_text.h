#pragma once

#include <map>
#include <string>

namespace backplate {

/// Cells by their column; an empty cell is left out.
using Cells = std::map<std::string, std::string, std::less<>>;

/// Cells as JSON text with sorted keys: equal cells are equal texts.
std::string cell_text(const Cells& cells);

/// Throws OutsideFault where the text is no JSON object of texts.
Cells read_cells(const std::string& text);

} // namespace backplate
