#include <algorithm>

#include "reports/drawing/drawing_file.h"
#include "reports/drawing/sheets.h"
#include "reports/workbook/sheets.h"

namespace backplate {
namespace {

constexpr double dots = 130;                ///< to the inch of a sheet's picture
constexpr double shown_mm = 205;            ///< width of a picture: it fits a page with the heading
constexpr double row_mm = 15 / 72.0 * 25.4; ///< height of a row of 15 points

} // namespace

bool has_drawing(const Source& source) {
    return !drawing_sheets(source.estimate, source.draft).empty();
}

void write_drawing_pictures(const Source& source, Page& page) {
    write_heading(source, page, "Drawing", source.price_mark());
    page.widths({16, 16, 16, 16, 16, 16});
    int row = 3;
    std::vector<std::uint32_t> pages;
    for (const Scene& sheet : drawing_sheets(source.estimate, source.draft)) {
        if (row > 3) pages.push_back(static_cast<std::uint32_t>(row));
        const double scale = shown_mm / sheet.width * 96 / dots;
        page.picture({row, 0}, png_bytes({sheet}, dots), scale, sheet.title);
        row += static_cast<int>(sheet.height * shown_mm / sheet.width / row_mm) + 3;
    }
    page.print(source.print(true));
    page.break_pages_above(pages);
}

} // namespace backplate
