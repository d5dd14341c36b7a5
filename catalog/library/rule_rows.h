#pragma once

#include <vector>

#include "catalog/library/versions.h"
#include "pricing/book/rule_tables.h"

namespace backplate {

extern const VersionedTable rule_table;

/// Rule tables as rows. A row keeps the ordinal that it has in `open` where the order allows, so
/// that a new row between two others leaves both alone.
std::vector<VersionedRow> rule_rows(const RuleTables& tables,
                                    const std::vector<VersionedRow>& open);

/// The tables back, every table of the schema, equal. Throws OutsideFault naming table, row and
/// column that cannot be read.
RuleTables rules_of(const std::vector<VersionedRow>& rows);

} // namespace backplate
