#pragma once

#include <vector>

#include "catalog/library/versions.h"
#include "pricing/book/part.h"

namespace backplate {

extern const VersionedTable part_table;

/// Parts as rows: every field of part_fields that says something.
std::vector<VersionedRow> part_rows(const std::vector<Part>& parts);

/// The parts back, equal. Throws OutsideFault naming part and field that cannot be read.
std::vector<Part> parts_of(const std::vector<VersionedRow>& rows);

} // namespace backplate
