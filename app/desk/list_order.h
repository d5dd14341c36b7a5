#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace backplate {

/// By what the rows of a list are sorted.
struct SortBy {
    int column = -1; ///< below 0: in the order in which they came
    bool ascending = true;
    bool numbers = false;  ///< the cells of the column are figures
    bool as_given = false; ///< the column means the order in which the rows came: gravity
    bool sum_last = false; ///< the last row is the sum and stays last
};

/// Places of the rows in the order in which they are shown; equal ones stay as they came. A figure
/// is read without its marks (≈, +, group blanks, a unit behind it), a cell without one comes after
/// all figures either way.
std::vector<std::size_t> shown_order(const std::vector<std::vector<std::string>>& rows,
                                     const SortBy& by);

} // namespace backplate
