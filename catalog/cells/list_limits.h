#pragma once

#include <cstddef>

namespace backplate {

/// What a list may hold at most; memory stays below 300 MB within them.
inline constexpr std::size_t most_list_bytes = 50'000'000;
inline constexpr std::size_t most_unpacked_bytes = 50'000'000;
inline constexpr std::size_t most_list_rows = 100'000;
inline constexpr std::size_t most_list_columns = 1'024;
inline constexpr std::size_t most_list_sheets = 256;
inline constexpr std::size_t most_cell_characters = 32'767;
inline constexpr std::size_t most_list_cells = 2'000'000; ///< empty ones between others too
inline constexpr std::size_t most_list_text = 50'000'000; ///< bytes of all cells

} // namespace backplate
