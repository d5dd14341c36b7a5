#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pricing/price_list/list_rules.h"
#include "pricing/price_list/price_map.h"

namespace backplate {

using ListCells = std::vector<std::string>;

/// The heading row of a price list and what its columns hold.
struct ListHeading {
    std::size_t row = 0;               ///< index of the heading row
    std::vector<std::string> meanings; ///< per column; empty: not used
    std::vector<std::string> currency; ///< per column, of the heading: "List price EUR"
    std::vector<ListColumn> used;      ///< what was taken, in the order of the columns
    std::vector<std::string> unused;   ///< headings of the other columns

    /// The column of a meaning; nothing where none holds it.
    std::optional<std::size_t> find(std::string_view meaning) const;
};

/// Among the first 30 rows the one with the headings of the map or, where it names no columns,
/// with most headings that the rules know. Descriptions are only taken where the map names them.
/// Throws BadInput naming `name` and what is missing, or two columns of one meaning.
ListHeading find_list_heading(const std::string& name, const std::vector<ListCells>& rows,
                              const PriceMap& map, const ListRules& rules);

} // namespace backplate
