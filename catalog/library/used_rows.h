#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "pricing/book/part.h"
#include "pricing/book/rule_tables.h"
#include "pricing/job/saved_job.h"

namespace backplate {

/// The rows of these names as a job keeps them, by table and key; a name without a row (a method
/// of the program stands under such a name too) is left out.
std::vector<UsedRow> used_rows(const std::set<std::string>& part_keys,
                               const std::set<std::pair<std::string, std::string>>& rule_names,
                               const std::vector<Part>& parts, const RuleTables& rules);

/// Whether every row reads as a part or a rule row of this program; throws OutsideFault naming
/// row, column and expectation where one does not.
void require_readable(const std::vector<UsedRow>& rows);

} // namespace backplate
