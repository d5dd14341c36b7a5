#pragma once

#include <cstdint>
#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/values/date.h"
#include "reports/workbook/style.h"
#include "reports/workbook/workbook_file.h"

namespace backplate {

/// A cell by row and column, both from 0.
struct Cell {
    int row = 0;
    int column = 0;
    std::string text() const; ///< "J30"
};

/// "J6:J24".
std::string range_text(Cell first, Cell last);

/// A column of a table: its heading, width in digits, and whether it holds figures.
struct ColumnHead {
    std::string title;
    double width = 10;
    bool figures = false;
};

/// How a page is printed.
struct PrintSetup {
    bool letter = false; ///< US Letter, else A4
    bool landscape = false;
    std::string left, right; ///< of the footer; the page count stands between
};

/// One sheet. Text is always text, never a formula; every result of the library is checked.
class Page {
public:
    Page(WorkbookFile& file, const char* name);

    void widths(std::initializer_list<double> widths);
    void widths(const std::vector<ColumnHead>& heads);
    void header(int row, const std::vector<ColumnHead>& heads);
    void text(Cell at, std::string_view text, const Style& style);
    void number(Cell at, double value, const Style& style); ///< value must be finite
    void date(Cell at, Date day, const Style& style);
    /// `result` is what the formula gives, as the engine knows it.
    void formula(Cell at, const std::string& formula, double result, const Style& style);
    void blank(Cell at, const Style& style);
    /// Text over several columns, wrapped, with a row as high as it needs.
    void paragraph(int row, int first, int last, std::string_view text, const Style& style);
    /// A section's heading with its line over the columns 0 to `last`.
    void section(int row, int last, std::string_view title);
    /// The row becomes at least so high.
    void row_height(int row, double points);
    void name_cell(Cell at, const char* name);
    /// A picture (the bytes of a PNG) with its upper left corner in the cell, `scale` times as
    /// large as its dots at 96 to the inch; `words`: what it shows, for who cannot see it.
    void picture(Cell at, const std::string& png, double scale, const std::string& words);
    void freeze_above(int row);
    void filter(Cell first, Cell last);
    /// A new printed page above each of these rows (none of them 0).
    void break_pages_above(std::vector<std::uint32_t> rows);
    void allow_number_text(Cell first, Cell last);
    void repeat_row(int row);
    void print(const PrintSetup& setup);

private:
    void fit(int row, double width, std::string_view text, const Style& style);

    WorkbookFile& file_;
    lxw_worksheet* sheet_;
    std::string name_;
    std::vector<double> widths_;
    std::map<int, double> heights_; ///< of rows higher than usual
};

} // namespace backplate
