#include <algorithm>
#include <array>
#include <deque>
#include <map>
#include <stdexcept>

#include "catalog/cells/list_file.h"
#include "catalog/cells/list_limits.h"
#include "catalog/cells/sheet_builder.h"
#include "catalog/cells/workbooks.h"
#include "catalog/cells/xlsx_styles.h"
#include "catalog/cells/xml_stream.h"

namespace backplate {
namespace {

constexpr std::size_t most_repeated = 1'048'576;
const char* const content_part = "content.xml";
const char* const manifest_part = "META-INF/manifest.xml";

/// Elements whose content is no cell: comments, drawings, old states of the sheet.
constexpr auto passed_over = std::array<std::string_view, 6>{
    "annotation", "tracked-changes", "shapes", "forms", "named-expressions", "dde-links"};

struct Style {
    CellLook look;
    bool hides_sheet = false;
};

struct RowCell {
    std::size_t column = 0, columns = 1, rows = 1;
    std::string text;
    CellLook look;
    bool no_value = false;
};

class ManifestHandler : public XmlHandler {
public:
    void begin(std::string_view name, const XmlAttributes&) override {
        encrypted |= name == "encryption-data";
    }
    void end(std::string_view) override {}
    void text(std::string_view) override {}

    bool encrypted = false;
};

class ContentHandler : public XmlHandler {
public:
    explicit ContentHandler(const std::string& path) : budget_{path} {}

    void begin(std::string_view name, const XmlAttributes& attributes) override {
        if (passed_over_ > 0 || std::ranges::find(passed_over, name) != passed_over.end()) {
            ++passed_over_;
            return;
        }
        begin_style(name, attributes);
        if (name == "table") begin_sheet(attributes);
        if (builders_.empty()) return;
        if (name == "table-row") begin_row(attributes);
        if (name == "table-cell" || name == "covered-table-cell") begin_cell(attributes);
        begin_text(name, attributes);
    }
    void end(std::string_view name) override {
        if (passed_over_ > 0) {
            --passed_over_;
            return;
        }
        if (name == "table-cell" || name == "covered-table-cell")
            end_cell(name == "covered-table-cell");
        if (name == "table-row" && !builders_.empty()) end_row();
        if (name == "p") --paragraphs_open_;
    }
    void text(std::string_view part) override {
        if (passed_over_ == 0 && paragraphs_open_ > 0 && text_.size() < most_list_text)
            text_ += part;
    }

    std::vector<ListSheet> take() {
        std::vector<ListSheet> sheets;
        for (SheetBuilder& builder : builders_) sheets.push_back(builder.take());
        return sheets;
    }

private:
    void begin_style(std::string_view name, const XmlAttributes& attributes) {
        if (name == "style") style_ = std::string(attributes.get("name", "style:1.0"));
        if (name == "text-properties") {
            const auto line = attributes.get("text-line-through-style");
            styles_[style_].look.struck = !line.empty() && line != "none";
        }
        if (name == "table-cell-properties")
            styles_[style_].look.red = is_red(attributes.get("background-color"));
        if (name == "table-properties")
            styles_[style_].hides_sheet = attributes.get("display", "table:1.0") == "false";
    }

    const Style& style_of(const XmlAttributes& attributes) const {
        const auto found = styles_.find(std::string(attributes.get("style-name", "table:1.0")));
        return found == styles_.end() ? plain_ : found->second;
    }

    void begin_sheet(const XmlAttributes& attributes) {
        if (builders_.size() == most_list_sheets) throw std::out_of_range("number of sheets");
        builders_.emplace_back(std::string(attributes.get("name", "table:1.0")), budget_);
        builders_.back().sheet().hidden = style_of(attributes).hides_sheet;
        row_ = 1;
    }

    void begin_row(const XmlAttributes& attributes) {
        repeated_rows_ = attributes.number("number-rows-repeated", 1, most_repeated);
        const auto seen = attributes.get("visibility", "table:1.0");
        filtered_ = seen == "filter";
        hidden_ = filtered_ || seen == "collapse";
        column_ = 0;
    }

    void begin_cell(const XmlAttributes& attributes) {
        repeated_columns_ = attributes.number("number-columns-repeated", 1, most_repeated);
        spanned_rows_ = attributes.number("number-rows-spanned", 1, most_repeated);
        look_ = style_of(attributes).look;
        text_.clear();
        paragraphs_ = paragraphs_open_ = 0;
        const auto type = attributes.get("value-type", "office:1.0");
        error_ = attributes.get("value-type", "calcext") == "error";
        no_value_ = attributes.find("formula", "table:1.0") && type.empty() && !error_;
        value_.clear();
        if (type == "float" || type == "percentage" || type == "currency")
            value_ = number_text(attributes.get("value", "office:1.0"));
        if (type == "boolean")
            value_ = attributes.get("boolean-value") == "true" ? "TRUE" : "FALSE";
        if (type == "string") value_ = attributes.get("string-value", "office:1.0");
        if (type == "date") value_ = day_of(attributes.get("date-value"));
    }

    /// "2031-05-06T13:30:00" as "2031-05-06 13:30", midnight left out.
    static std::string day_of(std::string_view text) {
        std::string day(text.substr(0, 10));
        if (text.size() >= 16 && text.substr(11, 5) != "00:00")
            day += " " + std::string(text.substr(11, 5));
        return day;
    }

    void begin_text(std::string_view name, const XmlAttributes& attributes) {
        if (name == "p") {
            if (paragraphs_++ > 0) text_ += '\n';
            ++paragraphs_open_;
        }
        if (name == "s") text_.append(attributes.number("c", 1, most_cell_characters), ' ');
        if (name == "tab") text_ += '\t';
        if (name == "line-break") text_ += '\n';
        if (name == "span") look_.struck |= style_of_text(attributes).look.struck;
    }

    const Style& style_of_text(const XmlAttributes& attributes) const {
        const auto found = styles_.find(std::string(attributes.get("style-name", "text:1.0")));
        return found == styles_.end() ? plain_ : found->second;
    }

    void end_cell(bool covered) {
        if (builders_.empty()) return;
        if (error_ && !text_.starts_with('#')) text_ = "#VALUE!";
        if (!value_.empty()) text_ = value_;
        if (!covered && (!text_.empty() || no_value_))
            row_cells_.push_back(
                {column_, repeated_columns_, spanned_rows_, std::move(text_), look_, no_value_});
        column_ += repeated_columns_;
    }

    /// Puts the cells of the row, as often as it is repeated. Blank rows at the end of a sheet may
    /// be repeated to its last one and cost nothing.
    void end_row() {
        if (!row_cells_.empty() && repeated_rows_ > most_list_rows)
            throw RefusedList("too_many_rows", budget_.path + ": repeats a row too often; "
                                                              "expected at most 100000 rows");
        for (std::size_t i = 0; !row_cells_.empty() && i < repeated_rows_; ++i) {
            builders_.back().begin_row(row_ + i, hidden_, filtered_);
            for (const RowCell& cell : row_cells_) put(cell, row_ + i);
        }
        row_cells_.clear();
        row_ += repeated_rows_;
    }

    void put(const RowCell& cell, std::size_t row) {
        SheetBuilder& builder = builders_.back();
        for (std::size_t i = 0; i < cell.columns; ++i) {
            if (cell.no_value)
                builder.put_flaw(cell.column + i, CellFlaw::no_value);
            else
                builder.put(cell.column + i, cell.text, cell.look);
        }
        if (builder.sheet().tall_cells.size() > most_list_rows)
            throw std::out_of_range("number of merged cells");
        if (cell.rows > 1)
            builder.sheet().tall_cells.push_back(
                {cell.column, static_cast<int>(row), static_cast<int>(row + cell.rows - 1)});
    }

    CellBudget budget_;
    std::deque<SheetBuilder> builders_;
    std::map<std::string, Style> styles_;
    Style plain_;
    std::vector<RowCell> row_cells_;
    std::string style_, text_, value_;
    std::size_t row_ = 1, column_ = 0, repeated_rows_ = 1, repeated_columns_ = 1, spanned_rows_ = 1;
    CellLook look_;
    bool hidden_ = false, filtered_ = false, error_ = false, no_value_ = false;
    int paragraphs_ = 0, paragraphs_open_ = 0, passed_over_ = 0;
};

} // namespace

std::vector<ListSheet> read_ods(ZipArchive& archive, const std::stop_token& stop) {
    ManifestHandler manifest;
    if (archive.has(manifest_part)) read_xml(archive, manifest_part, manifest, stop);
    if (manifest.encrypted)
        throw RefusedList("password", archive.path() + ": is protected by a password; expected a "
                                                       "workbook without one");
    ContentHandler handler(archive.path());
    read_xml(archive, content_part, handler, stop);
    return handler.take();
}

} // namespace backplate
