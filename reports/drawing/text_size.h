#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace backplate {

/// Width of a line of text, mm, in the drawing's font at `size` mm. Never less than what the font
/// takes for ASCII text; other characters count as the widest letter.
double text_width(std::string_view text, double size, bool bold = false);

/// Height of a line, in parts of its size.
constexpr double line_height = 1.17;

/// The text, or as much of it as the width takes with "…" at its end; whole UTF-8 characters.
std::string shortened(const std::string& text, double size, double width, bool bold = false);

/// The text in lines no wider than `width`, broken at blanks; a longer word is shortened.
std::vector<std::string> wrapped(const std::string& text, double size, double width);

} // namespace backplate
