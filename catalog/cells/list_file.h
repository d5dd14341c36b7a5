#pragma once

#include <stop_token>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/takeoff/list_sheet.h"
#include "pricing/values/faults.h"

namespace backplate {

/// A list that is refused whole; `reason` is a word: damaged_archive, old_container, password,
/// too_many_rows, too_large, not_text.
struct RefusedList : BadInput {
    RefusedList(std::string word, const std::string& text)
        : BadInput(text), reason(std::move(word)) {}
    std::string reason;
};

/// What may be told about a list before it is read.
struct ListHints {
    std::string encoding;           ///< of text; empty: found out
    std::string delimiter;          ///< of text; empty: found out
    std::vector<std::string> words; ///< headings and spellings, by which a code page is known
    std::stop_token stop;           ///< throws Stopped
};

/// Reads a list by its content, whatever its name: XLSX and ODS workbooks, else text (CSV, TSV).
/// Nothing is evaluated, linked or fetched. `path` is used for messages and for the extension.
/// Limits: 50 MB, 50 MB unpacked, 100,000 rows, 1,024 columns, 256 sheets; a cell above 32,767
/// characters is flawed. Throws RefusedList.
ListFile read_list_file(const std::string& path, std::string_view bytes, const ListHints& hints);

} // namespace backplate
