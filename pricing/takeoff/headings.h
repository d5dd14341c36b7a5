#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "pricing/takeoff/lexicon.h"

namespace backplate {

using Cells = std::vector<std::string>;

/// What a column holds; the words of the headings table in this order.
enum class Role { tag, description, type, electrics, panel, remarks, address, quantity };
inline constexpr std::array<std::string_view, 8> role_words{
    "tag", "description", "type", "electrics", "panel", "remarks", "address", "quantity"};

/// The heading row of a list and which columns hold what.
struct Heading {
    std::size_t row = 0;      ///< index of the first heading row
    std::size_t last_row = 0; ///< of two: the row below, else the same
    std::size_t width = 0;    ///< columns up to the last one with a heading
    std::array<std::vector<std::size_t>, role_words.size()> columns;

    bool has(Role role) const { return !columns[static_cast<std::size_t>(role)].empty(); }
    /// The cleaned texts of the role's columns in a row, joined by a blank.
    std::string text(const Cells& row_cells, Role role) const;
};

/// Among the first 30 rows the one with most roles, whole headings before part ones; the first of
/// equals. It must name at least two roles, one of them the type or the electrics. A cell is
/// matched whole, else by the longest spelling within it; "(…)" is left out. Where a role has whole
/// matches, part ones do not count; of several columns tag, type, panel, address and quantity take
/// the one whose spelling stands first in the table, the other roles take all. A list whose only
/// column of kind is the electrics reads the type from it.
/// A row below that names roles but neither a tag nor a description is a second heading row, whose
/// whole matches win over those above them.
std::optional<Heading> find_heading(const std::vector<Cells>& rows,
                                    const std::vector<Spelling>& spellings);

} // namespace backplate
