#include <algorithm>
#include <string_view>

#include "catalog/cells/delimited.h"
#include "catalog/cells/encoding.h"
#include "catalog/cells/table.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr std::size_t most_rows = 1'000'000;

std::vector<Record> split(const std::string& name, std::string_view text, char delimiter) {
    std::vector<Record> records;
    RecordSplitter splitter(name, text, delimiter);
    while (!splitter.at_end()) {
        if (records.size() == most_rows)
            refuse_line(name, splitter.line(), "has too many rows; expected at most 1000000");
        const int line = splitter.line();
        records.push_back(splitter.next());
        if (!records.back().too_long.empty())
            refuse_line(name, line, "a cell is too long; expected at most 32767 characters");
    }
    return records;
}

bool needs_quotes(std::string_view cell, bool alone) {
    return cell.find_first_of(",\"\r\n") != std::string_view::npos || (alone && cell.empty());
}

void append_cell(std::string& text, std::string_view cell, bool quoted) {
    if (!quoted) {
        text += cell;
        return;
    }
    text += '"';
    for (const char c : cell) text.append(c == '"' ? 2 : 1, c);
    text += '"';
}

} // namespace

ReadSheet read_delimited(const std::string& name, const std::string& bytes) {
    const DecodedText decoded = decode_text(name, bytes);
    const char delimiter = find_delimiter(decoded.utf8);
    ReadSheet result{{name, {}, {}}, {decoded.encoding, std::string(1, delimiter)}};
    for (Record& record : split(name, decoded.utf8, delimiter)) {
        result.sheet.rows.push_back(std::move(record.cells));
        result.sheet.row_numbers.push_back(static_cast<int>(result.sheet.rows.size()));
    }
    return result;
}

Sheet read_csv(const std::string& name, const std::string& bytes) {
    const DecodedText decoded = decode_text(name, bytes);
    if (!decoded.encoding.starts_with("utf-8"))
        throw BadInput(name + ": is no UTF-8 text (looks like " + decoded.encoding +
                       "); expected UTF-8");
    Sheet sheet{name, {}, {}};
    for (Record& record : split(name, decoded.utf8, ',')) {
        sheet.rows.push_back(std::move(record.cells));
        sheet.row_numbers.push_back(record.line);
    }
    const auto heading = std::find_if(sheet.rows.begin(), sheet.rows.end(), [](const auto& row) {
        return !row.empty() && !row[0].starts_with('#');
    });
    if (heading != sheet.rows.end() && heading->size() == 1 &&
        (*heading)[0].find_first_of(";\t|") != std::string::npos)
        refuse_line(name, sheet.row_numbers[static_cast<std::size_t>(heading - sheet.rows.begin())],
                    "has no comma between its headings; expected commas");
    return sheet;
}

std::string write_csv(const std::vector<std::vector<std::string>>& rows) {
    std::string text;
    for (const auto& row : rows) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            if (i > 0) text += ',';
            // A first cell that begins like a byte order mark would be read as one.
            const bool marked = text.empty() && row[i].starts_with("\xEF\xBB\xBF");
            append_cell(text, row[i], marked || needs_quotes(row[i], row.size() == 1));
        }
        text += '\n';
    }
    return text;
}

} // namespace backplate
