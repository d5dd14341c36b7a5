#pragma once

#include <stop_token>
#include <vector>

#include "catalog/cells/zip_archive.h"
#include "pricing/takeoff/list_sheet.h"

namespace backplate {

/// Sheets of an XLSX workbook (ECMA-376), in its order. Stored results of formulas are taken, none
/// is computed. Throws RefusedList.
std::vector<ListSheet> read_xlsx(ZipArchive& archive, const std::stop_token& stop);

/// Sheets of an ODS workbook (ISO/IEC 26300), as above.
std::vector<ListSheet> read_ods(ZipArchive& archive, const std::stop_token& stop);

} // namespace backplate
