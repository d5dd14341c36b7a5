#pragma once

#include <string>
#include <string_view>

namespace backplate {

/// Text that every spreadsheet program reads back: invalid UTF-8 and what XML forbids become
/// U+FFFD, control characters become blanks (line breaks stay), an escape of the file format
/// written out by hand (`_x0041_`) stays what it says, and what is longer than a cell may hold
/// (32,767 UTF-16 units) ends in "…".
std::string cell_text(std::string_view text);

/// Text for a page's header or footer, at most `most` characters: `&` is doubled, line breaks are
/// blanks.
std::string footer_text(std::string_view text, std::size_t most);

} // namespace backplate
