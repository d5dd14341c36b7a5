#include "reports/workbook/workbook_file.h"

#include <unistd.h>

#include <xlsxwriter.h>

#include "pricing/values/faults.h"
#include "reports/file_beside.h"
#include "reports/workbook/cell_text.h"

namespace backplate {
namespace {

std::uint8_t side_of(Style::Side side) {
    switch (side) {
    case Style::Side::left: return LXW_ALIGN_LEFT;
    case Style::Side::right: return LXW_ALIGN_RIGHT;
    case Style::Side::centre: return LXW_ALIGN_CENTER;
    case Style::Side::by_content: break;
    }
    return LXW_ALIGN_NONE;
}

} // namespace

void expect_written(int error) {
    if (error == LXW_NO_ERROR) return;
    throw OutsideFault(std::string("the workbook cannot be written: ") +
                       lxw_strerror(static_cast<lxw_error>(error)));
}

PlainLocale::PlainLocale() : plain_(newlocale(LC_ALL_MASK, "C", nullptr)) {
    if (plain_ == nullptr) throw OutsideFault("the locale \"C\" is missing");
    before_ = uselocale(plain_);
}

PlainLocale::~PlainLocale() {
    uselocale(before_);
    freelocale(plain_);
}

WorkbookFile::WorkbookFile(const std::string& path) : path_(path), beside_(make_beside(path)) {
    book_ = workbook_new(beside_.c_str());
    if (book_ != nullptr) return;
    unlink(beside_.c_str());
    throw OutsideFault(path + ": no memory for the workbook");
}

WorkbookFile::~WorkbookFile() {
    if (book_ != nullptr) lxw_workbook_free(book_);
    if (!beside_.empty()) unlink(beside_.c_str());
}

void WorkbookFile::describe(const std::string& title, const std::string& author, Date created) {
    std::string shown_title = cell_text(title), shown_author = cell_text(author);
    lxw_doc_properties properties{};
    properties.title = shown_title.data();
    properties.author = shown_author.data();
    properties.created = static_cast<time_t>(created.days) * 86400;
    expect_written(workbook_set_properties(book_, &properties));
}

lxw_worksheet* WorkbookFile::add_sheet(const char* name) {
    lxw_worksheet* sheet = workbook_add_worksheet(book_, name);
    if (sheet == nullptr) throw OutsideFault(path_ + ": no memory for the workbook");
    return sheet;
}

lxw_format* WorkbookFile::format(const Style& style) {
    const auto [place, added] = formats_.try_emplace(style, nullptr);
    if (added) place->second = make_format(style);
    return place->second;
}

lxw_format* WorkbookFile::make_format(const Style& style) {
    lxw_format* format = workbook_add_format(book_);
    if (format == nullptr) throw OutsideFault(path_ + ": no memory for the workbook");
    format_set_font_name(format, "Arial");
    format_set_font_size(format, style.size);
    format_set_font_color(format, style.colour);
    format_set_align(format, LXW_ALIGN_VERTICAL_CENTER);
    format_set_align(format, side_of(style.side));
    if (style.indent > 0) format_set_indent(format, static_cast<std::uint8_t>(style.indent));
    if (style.bold) format_set_bold(format);
    if (style.italic) format_set_italic(format);
    if (style.wrap) format_set_text_wrap(format);
    if (style.number != "General") format_set_num_format(format, style.number.c_str());
    if (style.fill != Style::no_fill) format_set_bg_color(format, style.fill);
    if (style.line_above) format_set_top(format, LXW_BORDER_THIN);
    if (style.line_below) format_set_bottom(format, LXW_BORDER_THIN);
    format_set_border_color(format, 0x9AA5B1);
    return format;
}

void WorkbookFile::name_cell(const char* name, const std::string& place) {
    expect_written(workbook_define_name(book_, name, ("=" + place).c_str()));
}

void WorkbookFile::save() {
    lxw_workbook* const book = book_;
    book_ = nullptr; // closing frees it
    const lxw_error error = workbook_close(book);
    if (error != LXW_NO_ERROR)
        throw OutsideFault(path_ + ": cannot be written: " + lxw_strerror(error));
    take_place(beside_, path_);
    beside_.clear();
}

} // namespace backplate
