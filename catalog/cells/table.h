#pragma once

#include <string>
#include <vector>

namespace backplate {

/// A sheet of plain cells as a file holds them, before anything is understood.
struct Sheet {
    std::string name;
    std::vector<std::vector<std::string>> rows; ///< rows may differ in length
    std::vector<int> row_numbers;               ///< 1-based line or row of the file, per row
};

/// How a text file was read.
struct TextReading {
    std::string encoding;  ///< utf-8, utf-8-bom, utf-16-le, utf-16-be, windows-1252
    std::string delimiter; ///< "," ";" tab "|"
};

struct ReadSheet {
    Sheet sheet;
    TextReading reading;
};

/// Reads .csv .tsv .txt bytes: encoding and delimiter found out, quoted cells with line breaks,
/// doubled quotes. Throws BadInput naming `name` and the line for unclosed quotes, NUL bytes,
/// more than 1,000,000 rows or a cell above 32,767 characters.
ReadSheet read_delimited(const std::string& name, const std::string& bytes);

/// Strict UTF-8 comma form for our own tables (rules, parts): as above, but anything that is not
/// UTF-8 with commas is refused.
Sheet read_csv(const std::string& name, const std::string& bytes);

/// One table as CSV text: quotes only where needed, "\n" line ends; reads back to equal cells.
std::string write_csv(const std::vector<std::vector<std::string>>& rows);

/// The bytes of a file. Throws OutsideFault naming the path where it cannot be read; BadInput
/// where it does not exist or is above 64 MiB.
std::string read_file(const std::string& path);

/// Writes beside the target, then replaces it; the old file stays until the new one is complete.
/// Throws OutsideFault.
void write_file(const std::string& path, const std::string& bytes);

} // namespace backplate
