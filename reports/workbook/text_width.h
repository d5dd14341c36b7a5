#pragma once

#include <cstdint>
#include <string_view>

namespace backplate {

/// Lines that sans-serif text of `size` points takes in a column `points` wide, broken at blanks
/// and line breaks; a word longer than the line is broken anywhere.
int lines_of(std::string_view text, double points, double size);

} // namespace backplate
