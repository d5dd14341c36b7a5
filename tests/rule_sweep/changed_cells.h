#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "pricing/book/rule_tables.h"

namespace backplate {

/// A numeric cell of an active rule row.
struct NumericCell {
    std::string table, row, column;
    std::size_t table_at = 0, row_at = 0, column_at = 0;
    std::string text;
};

/// Every cell that may move a figure: numbers of typed columns and values of plain rows. Bounds
/// (`minimum`, `maximum`) and the usual range (`low`, `high`) count only where figures rest on
/// them: hours, ratios, classes of estimates and duct widths.
std::vector<NumericCell> numeric_cells(const RuleTables& tables);

/// The cell with small changes, by direction: a tenth more, else a step of the last digit more,
/// else a tenth of a step more; the same less. In a list of numbers in brackets each number has its
/// directions.
std::vector<std::vector<std::string>> small_changes(const std::string& text);

} // namespace backplate
