#include "catalog/cells/list_file.h"

#include <algorithm>
#include <array>
#include <filesystem>

#include "catalog/cells/code_pages.h"
#include "catalog/cells/delimited.h"
#include "catalog/cells/encoding.h"
#include "catalog/cells/list_limits.h"
#include "catalog/cells/workbooks.h"
#include "catalog/cells/zip_archive.h"
#include "pricing/values/work.h"

namespace backplate {
namespace {

// First bytes of zip archives (APPNOTE 4.3.7) and of the older container (MS-CFB 2.2).
constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";
constexpr std::string_view zip_mark = "PK";
constexpr std::string_view container_mark = "\xD0\xCF\x11\xE0";
constexpr std::string_view ods_type = "application/vnd.oasis.opendocument.spreadsheet";
constexpr int rows_between_looks = 1'000;

[[noreturn]] void refuse_container(const std::string& path, std::string_view bytes) {
    std::string part; // the name of the part that holds the protected workbook, in UTF-16
    for (const char c : std::string_view("EncryptedPackage")) part += {c, '\0'};
    if (bytes.find(part) != std::string_view::npos)
        throw RefusedList("password", path + ": is protected by a password; expected a workbook "
                                             "without one");
    throw RefusedList("old_container",
                      path + ": is a workbook of the old form; expected .xlsx, .ods or text (open "
                             "it in a spreadsheet program and save it as .xlsx)");
}

std::string line_ends(std::string_view text) {
    const auto crlf = [&] {
        std::size_t count = 0;
        for (auto at = text.find("\r\n"); at != std::string_view::npos;
             at = text.find("\r\n", at + 2))
            ++count;
        return count;
    }();
    const auto lf = static_cast<std::size_t>(std::ranges::count(text, '\n')) - crlf;
    const auto cr = static_cast<std::size_t>(std::ranges::count(text, '\r')) - crlf;
    const int kinds = int(crlf > 0) + int(lf > 0) + int(cr > 0);
    if (kinds == 0) return {};
    if (kinds > 1) return "mixed";
    return crlf > 0 ? "crlf" : lf > 0 ? "lf" : "cr";
}

void keep_record(Record&& record, ListSheet& sheet) {
    ListRow& row = sheet.rows.emplace_back();
    row.number = static_cast<int>(sheet.rows.size());
    row.cells = std::move(record.cells);
    for (const std::size_t column : record.too_long) {
        row.cells[column].clear();
        row.flaws.push_back({column, CellFlaw::too_long});
    }
}

ListSheet split_sheet(const std::string& path, std::string_view text, char delimiter,
                      const std::stop_token& stop) {
    ListSheet sheet;
    sheet.delimited = true;
    RecordSplitter splitter(path, text, delimiter);
    std::size_t cells = 0;
    while (!splitter.at_end()) {
        if (sheet.rows.size() % rows_between_looks == 0 && stop.stop_requested()) throw Stopped{};
        if (sheet.rows.size() == most_list_rows)
            throw RefusedList("too_many_rows",
                              path + ": has too many rows; expected at most 100000");
        Record record = splitter.next();
        const int line = record.line;
        cells += record.cells.size();
        if (record.cells.size() > most_list_columns || cells > most_list_cells)
            throw RefusedList("too_large", path + ": line " + std::to_string(line) +
                                               ": has too many cells; expected at most 1024 in a "
                                               "row and 2000000 in all");
        keep_record(std::move(record), sheet);
    }
    return sheet;
}

/// The least that the text takes as UTF-8 where its bytes are of an 8-bit code page.
std::size_t least_decoded(std::string_view bytes) {
    const auto plain = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
    return 2 * bytes.size() - static_cast<std::size_t>(std::ranges::count_if(bytes, plain));
}

void refuse_long_text(const std::string& path, std::size_t bytes) {
    if (bytes > most_list_text)
        throw RefusedList("too_large",
                          path + ": holds too much text; expected at most 50 MB as UTF-8");
}

DecodedText decode(const std::string& path, std::string_view bytes, const ListHints& hints) {
    const bool marked = bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF") ||
                        bytes.starts_with(utf8_mark);
    if (!marked && !is_utf8(bytes)) refuse_long_text(path, least_decoded(bytes));
    if (hints.encoding.empty()) {
        try {
            return decode_text(path, bytes, hints.words);
        } catch (const RefusedList&) {
            throw;
        } catch (const BadInput& fault) {
            throw RefusedList("not_text", fault.what());
        }
    }
    if (!is_code_page(hints.encoding))
        throw BadInput(path + ": encoding " + hints.encoding +
                       ": is not known; expected windows-1250, -1251, -1252, -1253, -1254, -1257, "
                       "ibm850 or ibm852, or none to have it found out");
    return {from_code_page(bytes, hints.encoding), hints.encoding};
}

bool named_as_workbook(const std::string& path) {
    std::string extension = std::filesystem::path(path).extension().string();
    for (char& c : extension)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    constexpr auto names = std::array<std::string_view, 4>{".xlsx", ".xls", ".ods", ".xlsm"};
    return std::ranges::find(names, extension) != names.end();
}

ListFile read_text(const std::string& path, std::string_view bytes, const ListHints& hints) {
    // Most lists are UTF-8 already: their bytes are split where they lie.
    const bool as_it_is = hints.encoding.empty() && is_utf8(bytes) && !bytes.starts_with(utf8_mark);
    const DecodedText decoded = as_it_is ? DecodedText{{}, "utf-8"} : decode(path, bytes, hints);
    const std::string_view text = as_it_is ? bytes : std::string_view(decoded.utf8);
    refuse_long_text(path, text.size());
    const char delimiter = hints.delimiter.empty() ? find_delimiter(text) : hints.delimiter[0];
    ListFile file;
    file.reading.kind = "csv";
    file.reading.encoding = decoded.encoding;
    file.reading.delimiter = std::string(1, delimiter);
    file.reading.line_ends = line_ends(text);
    file.reading.misnamed = named_as_workbook(path);
    file.sheets.push_back(split_sheet(path, text, delimiter, hints.stop));
    return file;
}

bool is_ods(ZipArchive& archive) {
    std::string type;
    if (archive.has("mimetype"))
        archive.read("mimetype", [&](std::string_view part) {
            if (type.size() < ods_type.size()) type += part;
        });
    return type.starts_with(ods_type);
}

ListFile read_workbook(const std::string& path, std::string_view bytes, const ListHints& hints) {
    ZipArchive archive(path, bytes);
    ListFile file;
    file.reading.kind = is_ods(archive) ? "ods" : "xlsx";
    file.sheets =
        file.reading.kind == "ods" ? read_ods(archive, hints.stop) : read_xlsx(archive, hints.stop);
    return file;
}

} // namespace

ListFile read_list_file(const std::string& path, std::string_view bytes, const ListHints& hints) {
    if (bytes.size() > most_list_bytes)
        throw RefusedList("too_large", path + ": is too large; expected at most 50 MB");
    if (bytes.starts_with(container_mark)) refuse_container(path, bytes);
    ListFile file = bytes.starts_with(zip_mark) && bytes.size() > 2 && bytes[2] < 8
                        ? read_workbook(path, bytes, hints)
                        : read_text(path, bytes, hints);
    file.reading.file = std::filesystem::path(path).filename().string();
    return file;
}

} // namespace backplate
