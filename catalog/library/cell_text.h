#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace backplate {

/// Cells by their column; an empty cell is left out.
using Cells = std::map<std::string, std::string, std::less<>>;

/// Cells as JSON text with sorted keys: equal cells are equal texts.
std::string cell_text(const Cells& cells);

/// The cells in the order of the text. Throws OutsideFault where the text is no JSON object of
/// texts.
std::vector<std::pair<std::string, std::string>> list_cells(const std::string& text);

/// The same by column. Throws OutsideFault where the text is no JSON object of texts.
Cells read_cells(const std::string& text);

} // namespace backplate
