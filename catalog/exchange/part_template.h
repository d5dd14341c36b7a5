#pragma once

#include <string>

namespace backplate {

/// A CSV of parts to be filled in from data sheets: a controller, a coupler (head), ten modules and
/// their accessories of one platform, with the columns that such parts take. Above the heading
/// stand remarks, one line each of meaning, unit, expectation and the kinds that need the column,
/// cell by cell. read_parts_file reads it as it is; what is still empty is told by check_book.
/// `platform` is the platform's name, one line of text.
std::string part_template(const std::string& platform);

} // namespace backplate
