#pragma once

#include <string>
#include <vector>

#include "pricing/takeoff/list_sheet.h"

namespace backplate {

/// What a cell looks like, beside its text.
struct CellLook {
    bool struck = false, red = false;
};

/// Sum of what all sheets of a file hold, against the limits.
struct CellBudget {
    std::string path;
    std::size_t cells = 0, text = 0;
};

/// Puts cells into the rows of a sheet, in the order of the file. Throws RefusedList where a limit
/// is passed and std::out_of_range where rows or cells do not follow each other.
class SheetBuilder {
public:
    SheetBuilder(std::string name, CellBudget& budget) : budget_(budget) {
        sheet_.name = std::move(name);
    }

    /// Begins the row with this number (from 1), above the last one. Empty ones cost nothing.
    void begin_row(std::size_t number, bool hidden, bool filtered);
    /// Puts a text into a column (from 0) of the row begun last; an empty text is no cell.
    void put(std::size_t column, std::string text, const CellLook& look);
    void put_flaw(std::size_t column, CellFlaw flaw);

    ListSheet& sheet() { return sheet_; }
    ListSheet take() { return std::move(sheet_); }

private:
    ListRow& row_to_fill();
    void check_column(std::size_t column) const;

    CellBudget& budget_;
    ListSheet sheet_;
    std::size_t row_ = 0;
    bool hidden_ = false, filtered_ = false;
};

/// A number as a person writes it: 3 for "3.0" and "3E0"; the literal where it is no number.
std::string number_text(std::string_view literal);

/// Text of an XLSX cell with its escapes resolved: "_x000D_" is a carriage return (ECMA-376 part 1,
/// 22.9.2.19); NUL and halves of characters stay as they are.
std::string unescaped(std::string text);

/// The day (and time) that a spreadsheet keeps as a number: "2031-05-06", "2031-05-06 13:30",
/// "13:30"; the number where no day has it. `from_1904`: days count from 1904-01-01.
std::string date_text(std::string_view literal, bool from_1904);

} // namespace backplate
