#include "reports/workbook/page.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <xlsxwriter.h>

#include "pricing/values/decimal.h"
#include "reports/workbook/cell_text.h"
#include "reports/workbook/text_width.h"

namespace backplate {
namespace {

constexpr double line_points = 12.75; ///< height of a line of 10 points
constexpr double row_points = 15;     ///< height of a line of 10 points

lxw_row_t row_of(Cell at) { return static_cast<lxw_row_t>(at.row); }

lxw_col_t column_of(Cell at) { return static_cast<lxw_col_t>(at.column); }

std::string column_letters(int column) {
    std::string letters;
    for (int rest = column + 1; rest > 0; rest = (rest - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (rest - 1) % 26));
    return letters;
}

double finite(double value) {
    if (!std::isfinite(value)) throw std::logic_error("a figure of the workbook is not finite");
    return value == 0 ? 0.0 : value;
}

} // namespace

std::string Cell::text() const { return column_letters(column) + steps_text(row + 1, 0); }

std::string range_text(Cell first, Cell last) { return first.text() + ":" + last.text(); }

Page::Page(WorkbookFile& file, const char* name)
    : file_(file), sheet_(file.add_sheet(name)), name_(name) {
    worksheet_gridlines(sheet_, LXW_HIDE_ALL_GRIDLINES);
    worksheet_set_default_row(sheet_, row_points, LXW_FALSE);
}

void Page::widths(std::initializer_list<double> widths) {
    widths_ = widths;
    for (std::size_t i = 0; i < widths_.size(); ++i) {
        const auto column = static_cast<lxw_col_t>(i);
        expect_written(worksheet_set_column(sheet_, column, column, widths_[i], nullptr));
    }
}

void Page::widths(const std::vector<ColumnHead>& heads) {
    widths_.clear();
    for (const ColumnHead& head : heads) {
        const auto column = static_cast<lxw_col_t>(widths_.size());
        expect_written(worksheet_set_column(sheet_, column, column, head.width, nullptr));
        widths_.push_back(head.width);
    }
}

void Page::header(int row, const std::vector<ColumnHead>& heads) {
    int column = 0;
    for (const ColumnHead& head : heads)
        text({row, column++}, head.title, head.figures ? look::header_right() : look::header());
    row_height(row, 18);
}

void Page::text(Cell at, std::string_view text, const Style& style) {
    const std::string shown = cell_text(text);
    if (shown.empty()) return blank(at, style);
    if (style.wrap) fit(at.row, widths_[static_cast<std::size_t>(at.column)], shown, style);
    expect_written(worksheet_write_string(sheet_, row_of(at), column_of(at), shown.c_str(),
                                          file_.format(style)));
}

void Page::number(Cell at, double value, const Style& style) {
    expect_written(worksheet_write_number(sheet_, row_of(at), column_of(at), finite(value),
                                          file_.format(style)));
}

void Page::date(Cell at, Date day, const Style& style) {
    // Day 0 of the sheet's calendar is 1899-12-30 for all days from 1900-03-01.
    number(at, day.days - Date::of(1899, 12, 30).days, style);
}

void Page::formula(Cell at, const std::string& formula, double result, const Style& style) {
    expect_written(worksheet_write_formula_num(sheet_, row_of(at), column_of(at),
                                               ("=" + formula).c_str(), file_.format(style),
                                               finite(result)));
}

void Page::blank(Cell at, const Style& style) {
    expect_written(worksheet_write_blank(sheet_, row_of(at), column_of(at), file_.format(style)));
}

/// The row becomes high enough for text that is broken at so many digits' width.
void Page::fit(int row, double width, std::string_view text, const Style& style) {
    // A digit of the file's default font is 7 pixels of 0.75 points wide. Other programs' fonts
    // run a little wider, and each side keeps a margin.
    constexpr double digit_points = 5.25, safety = 0.93, margin_points = 4, indent_points = 7;
    const double points =
        width * digit_points * safety - margin_points - indent_points * style.indent;
    const double bold = style.bold ? 1.08 : 1;
    const double line = line_points * style.size / 10;
    row_height(row, line * lines_of(text, points, style.size * bold) + row_points - line_points);
}

void Page::paragraph(int row, int first, int last, std::string_view text, const Style& style) {
    const std::string shown = cell_text(text);
    const Style wrapped = style.wrapped();
    expect_written(worksheet_merge_range(sheet_, row_of({row, 0}), column_of({0, first}),
                                         row_of({row, 0}), column_of({0, last}), shown.c_str(),
                                         file_.format(wrapped)));
    double width = 0;
    for (int i = first; i <= last; ++i) width += widths_[static_cast<std::size_t>(i)];
    fit(row, width, shown, wrapped);
}

void Page::section(int row, int last, std::string_view title) {
    text({row, 0}, title, look::section());
    for (int column = 1; column <= last; ++column) blank({row, column}, look::section());
    row_height(row, 20);
}

void Page::row_height(int row, double points) {
    constexpr double most_points = 409; // of the file format
    double& height = heights_.try_emplace(row, row_points).first->second;
    if (points <= height) return;
    height = std::min(points, most_points);
    expect_written(worksheet_set_row(sheet_, row_of({row, 0}), height, nullptr));
}

void Page::picture(Cell at, const std::string& png, double scale, const std::string& words) {
    lxw_image_options options{};
    options.x_scale = options.y_scale = scale;
    std::string description = words; // the library takes a text that it may change
    options.description = description.data();
    expect_written(worksheet_insert_image_buffer_opt(
        sheet_, row_of(at), column_of(at), reinterpret_cast<const unsigned char*>(png.data()),
        png.size(), &options));
}

void Page::name_cell(Cell at, const char* name) {
    file_.name_cell(name, "'" + name_ + "'!$" + column_letters(at.column) + "$" +
                              steps_text(at.row + 1, 0));
}

void Page::freeze_above(int row) { worksheet_freeze_panes(sheet_, row_of({row, 0}), 0); }

void Page::filter(Cell first, Cell last) {
    expect_written(worksheet_autofilter(sheet_, row_of(first), column_of(first), row_of(last),
                                        column_of(last)));
}

void Page::break_pages_above(std::vector<std::uint32_t> rows) {
    rows.push_back(0); // ends the list
    expect_written(worksheet_set_h_pagebreaks(sheet_, rows.data()));
}

void Page::allow_number_text(Cell first, Cell last) {
    expect_written(worksheet_ignore_errors(sheet_, LXW_IGNORE_NUMBER_STORED_AS_TEXT,
                                           range_text(first, last).c_str()));
}

void Page::repeat_row(int row) {
    expect_written(worksheet_repeat_rows(sheet_, row_of({row, 0}), row_of({row, 0})));
}

void Page::print(const PrintSetup& setup) {
    constexpr std::uint8_t letter = 1, a4 = 9;
    worksheet_set_paper(sheet_, setup.letter ? letter : a4);
    if (setup.landscape) worksheet_set_landscape(sheet_);
    worksheet_set_margins(sheet_, 0.5, 0.5, 0.6, 0.7);
    worksheet_fit_to_pages(sheet_, 1, 0);
    const std::string font = "&\"Arial,Regular\"&8";
    const std::string footer = "&L" + font + footer_text(setup.left, 60) + "&C" + font +
                               "&A, page &P of &N&R" + font + footer_text(setup.right, 60);
    expect_written(worksheet_set_footer(sheet_, footer.c_str()));
}

} // namespace backplate
