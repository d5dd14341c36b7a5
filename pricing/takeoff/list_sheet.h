#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace backplate {

using Cells = std::vector<std::string>;

/// What is wrong with a cell whose text cannot be used; the text is empty then.
enum class CellFlaw { no_value, too_long };

struct FlawedCell {
    std::size_t column = 0;
    CellFlaw flaw = CellFlaw::no_value;
};

/// A row as the file holds it, cells as plain text: numbers without trailing zeros, dates as
/// 2031-05-06, flags as TRUE or FALSE, errors as #N/A and the like.
struct ListRow {
    int number = 0; ///< of the sheet from 1; in text files the number of the record
    Cells cells;
    bool hidden = false;   ///< by hand or by a filter
    bool filtered = false; ///< by a filter
    bool struck = false;   ///< a filled cell is struck through
    bool red = false;      ///< a filled cell lies on red
    std::vector<FlawedCell> flaws;
};

/// A cell merged over several rows; only its first column has the text.
struct TallCell {
    std::size_t column = 0;
    int first_row = 0, last_row = 0;
};

/// A sheet of a list; rows without a gap from row 1 to the last one that holds something.
struct ListSheet {
    std::string name; ///< empty: a text file
    bool hidden = false;
    bool delimited = false; ///< text: how many fields a row has means something
    std::vector<ListRow> rows;
    std::vector<TallCell> tall_cells;
};

/// How a list came.
struct ListReading {
    std::string file;      ///< without its folder
    std::string kind;      ///< csv, xlsx, ods
    std::string encoding;  ///< of text: utf-8, utf-8-bom, utf-16-le, utf-16-be, windows-1250 …
    std::string delimiter; ///< of text: one character
    std::string line_ends; ///< of text: lf, crlf, cr, mixed; empty: one line
    bool misnamed = false; ///< text in a file that is named as a workbook
};

struct ListFile {
    ListReading reading;
    std::vector<ListSheet> sheets;
};

} // namespace backplate
