#include <algorithm>
#include <charconv>
#include <optional>
#include <stdexcept>

#include "catalog/cells/list_file.h"
#include "catalog/cells/list_limits.h"
#include "catalog/cells/workbooks.h"
#include "catalog/cells/xlsx_parts.h"
#include "catalog/cells/xml_stream.h"

namespace backplate {
namespace {

constexpr std::size_t most_sheet_rows = 1'048'576, most_sheet_columns = 16'384;

struct Place {
    std::size_t row = 0, column = 0; ///< row from 1, column from 0
};

/// "B12"; throws std::out_of_range.
Place place_of(std::string_view reference) {
    Place place;
    std::size_t at = 0, column = 0;
    for (; at < reference.size() && reference[at] >= 'A' && reference[at] <= 'Z'; ++at) {
        column = column * 26 + static_cast<std::size_t>(reference[at] - 'A') + 1;
        if (column > most_sheet_columns) break;
    }
    const char* end = reference.data() + reference.size();
    const auto [stop, error] = std::from_chars(reference.data() + at, end, place.row);
    if (error != std::errc{} || stop != end || place.row < 1 || place.row > most_sheet_rows ||
        column < 1 || column > most_sheet_columns)
        throw std::out_of_range("reference " + std::string(reference));
    place.column = column - 1;
    return place;
}

struct Area {
    Place first, last;
};

Area area_of(std::string_view reference) {
    const auto colon = reference.find(':');
    const Place first = place_of(reference.substr(0, colon));
    return {first, colon == std::string_view::npos ? first : place_of(reference.substr(colon + 1))};
}

/// The area of a filter and whether it hides rows; of a sheet or of a table in it.
struct Filter {
    std::optional<Area> area;
    bool active = false;

    void begin(std::string_view name, const XmlAttributes& attributes) {
        if (name == "autoFilter" && attributes.find("ref")) area = area_of(attributes.get("ref"));
        active |= name == "filterColumn";
    }
    bool hides(int row) const {
        const auto number = static_cast<std::size_t>(row);
        return active && area && number > area->first.row && number <= area->last.row;
    }
};

class TableHandler : public XmlHandler {
public:
    void begin(std::string_view name, const XmlAttributes& attributes) override {
        filter.begin(name, attributes);
    }
    void end(std::string_view) override {}
    void text(std::string_view) override {}

    Filter filter;
};

class SheetHandler : public XmlHandler {
public:
    SheetHandler(const XlsxParts& parts, const XlsxSheetPart& sheet, CellBudget& budget)
        : parts_(parts), builder_(sheet.name, budget) {
        builder_.sheet().hidden = sheet.hidden;
    }

    void begin(std::string_view name, const XmlAttributes& attributes) override {
        filter_.begin(name, attributes);
        if (name == "sheetPr") filter_.active |= attributes.flag("filterMode");
        if (name == "row") begin_row(attributes);
        if (name == "c") begin_cell(attributes);
        if (name == "f") has_formula_ = true;
        if (name == "v") has_value_ = takes_text_ = true;
        if (name == "rPh") in_reading_help_ = true;
        if (name == "t") takes_text_ = !in_reading_help_;
        if (name == "strike") struck_ |= !attributes.find("val") || attributes.flag("val");
        if (name == "mergeCell") keep_tall(area_of(attributes.get("ref")));
    }
    void end(std::string_view name) override {
        if (name == "v" || name == "t") takes_text_ = false;
        if (name == "rPh") in_reading_help_ = false;
        if (name == "c") end_cell();
    }
    void text(std::string_view part) override {
        if (takes_text_ && text_.size() < most_list_text) text_ += part;
    }

    ListSheet take(const std::vector<Filter>& of_tables) {
        ListSheet sheet = builder_.take();
        for (ListRow& row : sheet.rows)
            row.filtered = row.hidden && (filter_.hides(row.number) ||
                                          std::ranges::any_of(of_tables, [&](const Filter& each) {
                                              return each.hides(row.number);
                                          }));
        return sheet;
    }

private:
    void begin_row(const XmlAttributes& attributes) {
        row_ = attributes.number("r", row_ + 1, most_sheet_rows);
        next_column_ = 0;
        builder_.begin_row(row_, attributes.flag("hidden"), false);
    }

    void begin_cell(const XmlAttributes& attributes) {
        column_ = next_column_;
        if (const auto reference = attributes.find("r")) {
            const Place place = place_of(*reference);
            if (place.row != row_) throw std::out_of_range("reference " + std::string(*reference));
            column_ = place.column;
        }
        next_column_ = column_ + 1;
        type_ = attributes.get("t");
        const auto style = attributes.find("s");
        const std::size_t index = style ? whole(*style) : 0;
        format_ = index < parts_.formats.size() ? parts_.formats[index] : XlsxFormat{};
        text_.clear();
        has_formula_ = has_value_ = struck_ = false;
    }

    static std::size_t whole(std::string_view text) {
        std::size_t value = 0;
        const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (error != std::errc{} || stop != text.data() + text.size())
            throw std::out_of_range(std::string(text));
        return value;
    }

    void end_cell() {
        if (has_formula_ && !has_value_) return builder_.put_flaw(column_, CellFlaw::no_value);
        CellLook look = format_.look;
        look.struck |= struck_;
        if (type_ == "s" && !text_.empty()) {
            const std::size_t index = whole(text_);
            if (index >= parts_.shared_texts.size())
                throw std::out_of_range("shared text " + text_);
            look.struck |= parts_.shared_texts[index].struck;
            return builder_.put(column_, parts_.shared_texts[index].text, look);
        }
        builder_.put(column_, unescaped(plain_text()), look);
    }

    std::string plain_text() {
        if (text_.empty() || type_ == "str" || type_ == "inlineStr" || type_ == "e" || type_ == "d")
            return std::move(text_);
        if (type_ == "b") return text_ == "0" ? "FALSE" : "TRUE";
        return format_.date ? date_text(text_, parts_.from_1904) : number_text(text_);
    }

    void keep_tall(const Area& area) {
        if (area.last.row <= area.first.row || area.first.column >= most_list_columns) return;
        if (builder_.sheet().tall_cells.size() == most_list_rows)
            throw std::out_of_range("number of merged cells");
        builder_.sheet().tall_cells.push_back(
            {area.first.column, static_cast<int>(area.first.row), static_cast<int>(area.last.row)});
    }

    const XlsxParts& parts_;
    SheetBuilder builder_;
    Filter filter_;
    std::size_t row_ = 0, next_column_ = 0, column_ = 0;
    std::string type_, text_;
    XlsxFormat format_;
    bool has_formula_ = false, has_value_ = false, takes_text_ = false, in_reading_help_ = false,
         struck_ = false;
};

std::vector<Filter> filters_of_tables(ZipArchive& archive, const std::string& sheet,
                                      const std::stop_token& stop) {
    std::vector<Filter> filters;
    for (const auto& [id, relation] : read_xlsx_relations(archive, sheet, stop)) {
        if (relation.type != "table") continue;
        TableHandler handler;
        read_xml(archive, relation.member, handler, stop);
        filters.push_back(handler.filter);
    }
    return filters;
}

} // namespace

std::vector<ListSheet> read_xlsx(ZipArchive& archive, const std::stop_token& stop) {
    const XlsxParts parts = read_xlsx_parts(archive, stop);
    CellBudget budget{archive.path()};
    std::vector<ListSheet> sheets;
    for (const XlsxSheetPart& part : parts.sheets) {
        SheetHandler handler(parts, part, budget);
        read_xml(archive, part.member, handler, stop);
        sheets.push_back(handler.take(filters_of_tables(archive, part.member, stop)));
    }
    return sheets;
}

} // namespace backplate
