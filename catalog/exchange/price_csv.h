#pragma once

#include <string>
#include <vector>

#include "pricing/book/part.h"

namespace backplate {

/// Parts of one CSV file: header names fields of part_fields in any order, absent fields take
/// their default. Lines whose first cell begins with # are skipped before the header, and below it
/// where the first column is `part`. Throws BadInput naming file, row, column and expectation.
std::vector<Part> read_parts_file(const std::string& path);
/// Every *.csv of a directory in the order of names; a key twice is a fault naming both places.
std::vector<Part> read_parts_dir(const std::string& directory);
/// One CSV per kind into DIR with the columns that any part of the kind uses; reads back equal.
void write_parts_dir(const std::vector<Part>& parts, const std::string& directory);

} // namespace backplate
