#pragma once

#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

#include "catalog/cells/xlsx_parts.h"

namespace backplate {

/// Formats of cells in the order in which cells name them.
std::vector<XlsxFormat> read_xlsx_formats(ZipArchive& archive, const std::string& member,
                                          const std::stop_token& stop);

/// Whether a number format shows a day or a time: y, m, d, h or s outside quotes and brackets.
bool is_date_format(std::string_view code);

/// Whether a colour written as RRGGBB or AARRGGBB is a strong red.
bool is_red(std::string_view colour);

} // namespace backplate
