#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule_tables.h"

namespace backplate {

/// Every table of the schema from DIR/<table>.csv; a missing file is an empty table.
/// Throws BadInput naming file, row, column and expectation of the first wrong cell.
RuleTables read_rules_dir(const std::string& directory);

/// What a rule file holds: either one table (header `row,…`, named by the file) or several in flat
/// form (header `table,row,value,unit,low,high,source`). Every table named in it is replaced: rows
/// that the file does not hold end; columns that the file does not hold keep the value of the row
/// of the same key, active rows and rows not active alike, and `active` becomes yes.
/// Throws BadInput as above; `current` stays as it is.
RuleTables with_rules_file(const RuleTables& current, const std::string& path);

/// One CSV per table into DIR (made where absent); reading it back gives equal tables.
void write_rules_dir(const RuleTables& tables, const std::string& directory);

} // namespace backplate
