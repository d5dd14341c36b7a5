#pragma once

#include <vector>

#include "app/desk/row_list.h"

namespace backplate {

/// The columns of a list of what could be built instead: its own ones, then those that
/// `difference_cells` fills.
std::vector<ListColumn> difference_columns(std::vector<ListColumn> own);

} // namespace backplate
