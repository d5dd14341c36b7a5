#include "catalog/cells/sheet_builder.h"

#include <charconv>
#include <chrono>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

#include "catalog/cells/encoding.h"
#include "catalog/cells/list_file.h"
#include "catalog/cells/list_limits.h"

namespace backplate {
namespace {

constexpr double whole_limit = 1e15; ///< below it a double holds every whole number

bool read_number(std::string_view literal, double& value) {
    const auto [stop, error] =
        std::from_chars(literal.data(), literal.data() + literal.size(), value);
    return error == std::errc{} && stop == literal.data() + literal.size() && std::isfinite(value);
}

std::string time_text(int minutes) {
    return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

} // namespace

void SheetBuilder::begin_row(std::size_t number, bool hidden, bool filtered) {
    if (number <= row_) throw std::out_of_range("row " + std::to_string(number));
    row_ = number;
    hidden_ = hidden;
    filtered_ = filtered;
}

void SheetBuilder::check_column(std::size_t column) const {
    if (column >= most_list_columns)
        throw RefusedList("too_large", budget_.path + ": sheet " + sheet_.name + ", row " +
                                           std::to_string(row_) +
                                           ": has too many columns; expected at most 1024");
}

ListRow& SheetBuilder::row_to_fill() {
    if (row_ > most_list_rows)
        throw RefusedList("too_many_rows", budget_.path + ": sheet " + sheet_.name +
                                               ": has too many rows; expected at most 100000");
    while (sheet_.rows.size() < row_) {
        ListRow& next = sheet_.rows.emplace_back();
        next.number = static_cast<int>(sheet_.rows.size());
    }
    ListRow& row = sheet_.rows.back();
    row.hidden = hidden_;
    row.filtered = filtered_;
    return row;
}

void SheetBuilder::put(std::size_t column, std::string text, const CellLook& look) {
    if (text.empty()) return;
    check_column(column);
    if (text.size() > most_cell_characters && character_count(text) > most_cell_characters)
        return put_flaw(column, CellFlaw::too_long);
    Cells& cells = row_to_fill().cells;
    if (column < cells.size()) throw std::out_of_range("column " + std::to_string(column + 1));
    budget_.cells += column + 1 - cells.size();
    budget_.text += text.size();
    if (budget_.cells > most_list_cells || budget_.text > most_list_text)
        throw RefusedList("too_large", budget_.path + ": holds too many cells or too much text; "
                                                      "expected at most 2000000 cells and 50 MB");
    cells.resize(column);
    cells.push_back(std::move(text));
    sheet_.rows.back().struck |= look.struck;
    sheet_.rows.back().red |= look.red;
}

void SheetBuilder::put_flaw(std::size_t column, CellFlaw flaw) {
    check_column(column);
    if (++budget_.cells > most_list_cells)
        throw RefusedList("too_large", budget_.path + ": holds too many cells; expected at most "
                                                      "2000000");
    row_to_fill().flaws.push_back({column, flaw});
}

std::string number_text(std::string_view literal) {
    double value = 0;
    if (!read_number(literal, value)) return std::string(literal);
    if (value == std::floor(value) && std::abs(value) < whole_limit)
        return fmt::format("{:.0f}", value == 0 ? 0.0 : value);
    return fmt::format("{}", value);
}

std::string unescaped(std::string text) {
    constexpr std::size_t length = 7; // _xHHHH_
    std::string result;
    std::size_t done = 0;
    for (auto at = text.find("_x"); at != std::string::npos; at = text.find("_x", at)) {
        unsigned code = 0;
        const char* digits = text.data() + at + 2;
        const bool whole = at + length <= text.size() && text[at + length - 1] == '_';
        const auto [stop, error] = std::from_chars(digits, digits + (whole ? 4 : 0), code, 16);
        const bool half = code >= 0xD800 && code < 0xE000;
        if (!whole || error != std::errc{} || stop != digits + 4 || code == 0 || half) {
            at += 2;
            continue;
        }
        result.append(text, done, at - done);
        append_utf8(result, code);
        done = at += length;
    }
    return done == 0 ? std::move(text) : result + text.substr(done);
}

std::string date_text(std::string_view literal, bool from_1904) {
    using namespace std::chrono;
    double value = 0;
    constexpr double days_of_calendar = 2'958'466; // 9999-12-31
    if (!read_number(literal, value) || value < 0 || value >= days_of_calendar)
        return number_text(literal);
    auto day = static_cast<int>(std::floor(value));
    auto minutes = static_cast<int>(std::lround((value - day) * 24 * 60));
    if (minutes == 24 * 60) ++day, minutes = 0;
    if (day == 0 && !from_1904) return time_text(minutes);
    // The count from 1900 knows a 29 February 1900 that never was.
    const sys_days first =
        from_1904 ? sys_days{1904y / January / 1}
                  : sys_days{(day < 61 ? 1899y / December / 31 : 1899y / December / 30)};
    const year_month_day date{first + days{day}};
    const std::string text = fmt::format("{:04}-{:02}-{:02}", int(date.year()),
                                         unsigned(date.month()), unsigned(date.day()));
    return minutes == 0 ? text : text + " " + time_text(minutes);
}

} // namespace backplate
