#include "catalog/exchange/price_csv.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>
#include <string_view>

#include "catalog/cells/table.h"
#include "pricing/book/part_fields.h"
#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

using Columns = std::vector<const PartField*>;
using Row = std::vector<std::string>;

/// A part with the place that it was read from.
struct FoundPart {
    Part part;
    std::string place; ///< "modules.csv: line 7"
};

std::string at_line(const std::string& file, int line) {
    return file + ": line " + std::to_string(line);
}

std::string_view trimmed(std::string_view cell) {
    const auto first = cell.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return cell.substr(first, cell.find_last_not_of(" \t") - first + 1);
}

bool is_blank(const Row& row) {
    return std::all_of(row.begin(), row.end(),
                       [](const auto& cell) { return trimmed(cell).empty(); });
}

[[noreturn]] void refuse_column(const std::string& place, const std::string& cell) {
    std::vector<std::string> keys;
    std::string known;
    for (const auto& field : part_fields()) {
        keys.emplace_back(field.key);
        known += (known.empty() ? "" : ", ") + keys.back();
    }
    const auto nearest = nearest_word(cell, keys);
    throw BadInput(place + ": column '" + cell + "' is no field of a part; " +
                   (nearest.empty() ? "expected any of " + known : "nearest: " + nearest));
}

/// A line that is there for people: before the heading, or where a key would stand.
bool is_remark(const Row& row, const Columns& columns) {
    const bool key_first = columns.empty() || columns.front()->key == "part";
    return key_first && !row.empty() && trimmed(row.front()).starts_with('#');
}

Columns read_heading(const std::string& place, const Row& row) {
    Columns columns;
    const auto is_field = [](const auto& cell) {
        return find_part_field(trimmed(cell)) != nullptr;
    };
    if (row.size() > 1 && std::none_of(row.begin(), row.end(), is_field))
        throw BadInput(place + ": is no heading, no cell of it names a field of a part; expected "
                               "one such as part,kind,description,list");
    for (const auto& cell : row) {
        const auto* field = find_part_field(trimmed(cell));
        if (!field) refuse_column(place, cell);
        if (std::count(columns.begin(), columns.end(), field) > 0)
            throw BadInput(place + ": column '" + cell + "' stands twice; expected it once");
        columns.push_back(field);
    }
    for (const std::string_view key : {"part", "kind"})
        if (std::count(columns.begin(), columns.end(), find_part_field(key)) == 0)
            throw BadInput(place + ": has no column '" + std::string(key) + "'; expected one");
    return columns;
}

/// The line with the key of its part, where it has one.
std::string place_of(const std::string& line, const Columns& columns, const Row& row) {
    const auto at = static_cast<std::size_t>(
        std::find(columns.begin(), columns.end(), find_part_field("part")) - columns.begin());
    const auto key = at < row.size() ? trimmed(row[at]) : std::string_view{};
    return key.empty() ? line : line + ": part " + std::string(key);
}

[[noreturn]] void refuse_cell(const std::string& place, const PartField& field,
                              std::string_view cell) {
    const auto found = cell.empty() ? "is empty" : "is '" + std::string(cell) + "'";
    throw BadInput(place + ": column '" + std::string(field.key) + "' " + found + "; expected " +
                   expectation(field));
}

/// Channels come whole: a group has signals and a number, in one of the two forms.
void check_channels(const std::string& place, const Part& part,
                    const std::set<std::string_view>& filled) {
    const bool in_columns =
        filled.contains("signal") || filled.contains("channels") || filled.contains("channel_a");
    if (in_columns && filled.contains("groups"))
        throw BadInput(place + ": column 'groups' is filled beside 'signal', 'channels' or "
                               "'channel_a'; expected one of the two forms");
    for (const auto& group : part.groups) {
        if (group.signals.empty()) refuse_cell(place, *find_part_field("signal"), "");
        if (group.channels == 0) refuse_cell(place, *find_part_field("channels"), "");
    }
}

Part read_part(const std::string& place, const Columns& columns, const Row& row) {
    if (row.size() != columns.size())
        throw BadInput(place + ": has " + std::to_string(row.size()) + " cells; expected " +
                       std::to_string(columns.size()) + " as in the heading");
    Part part;
    std::set<std::string_view> filled;
    for (std::size_t i = 0; i < row.size(); ++i) {
        const auto cell = trimmed(row[i]);
        const bool needed = columns[i]->key == "part" || columns[i]->key == "kind";
        if (cell.empty() && !needed) continue;
        if (!columns[i]->read(part, cell)) refuse_cell(place, *columns[i], cell);
        filled.insert(columns[i]->key);
    }
    check_channels(place, part, filled);
    fill_part_defaults(part);
    return part;
}

void read_into(std::vector<FoundPart>& found, const std::string& path) {
    const Sheet sheet = read_csv(path, read_file(path));
    Columns columns;
    for (std::size_t i = 0; i < sheet.rows.size(); ++i) {
        const Row& row = sheet.rows[i];
        const auto line = at_line(path, sheet.row_numbers[i]);
        if (is_blank(row) || is_remark(row, columns)) continue;
        if (columns.empty()) {
            columns = read_heading(line, row);
            continue;
        }
        found.push_back({read_part(place_of(line, columns, row), columns, row), line});
    }
    if (columns.empty()) throw BadInput(path + ": is empty; expected a heading and parts");
}

/// The parts alone; a key twice is a fault naming both places.
std::vector<Part> unique_parts(std::vector<FoundPart> found) {
    std::map<std::string, const std::string*> places;
    for (const auto& one : found) {
        const auto [first, added] = places.emplace(one.part.key, &one.place);
        if (!added)
            throw BadInput(one.place + ": part " + one.part.key + " stands already at " +
                           *first->second + "; expected every part once");
    }
    std::vector<Part> parts;
    for (auto& one : found) parts.push_back(std::move(one.part));
    return parts;
}

std::vector<fs::path> csv_files(const std::string& directory) {
    std::error_code error;
    std::vector<fs::path> files;
    for (fs::directory_iterator at(directory, error), end; !error && at != end; at.increment(error))
        if (at->path().extension() == ".csv") files.push_back(at->path());
    if (error == std::errc::no_such_file_or_directory || error == std::errc::not_a_directory)
        throw BadInput(directory + ": is no folder; expected a folder of .csv files");
    if (error) throw OutsideFault(directory + ": cannot be read: " + error.message());
    std::sort(files.begin(), files.end());
    return files;
}

/// Rows of the parts of one kind under the fields that say more than an empty cell would.
std::vector<Row> rows_of(const std::vector<const Part*>& parts) {
    const Part blank;
    Columns columns;
    for (const auto& field : part_fields()) {
        const auto says = [&](const Part* part) {
            return field.write(*part) != field.write(blank);
        };
        if (std::any_of(parts.begin(), parts.end(), says)) columns.push_back(&field);
    }
    std::vector<Row> rows(1);
    for (const auto* field : columns) rows[0].emplace_back(field->key);
    for (const Part* part : parts) {
        Row& row = rows.emplace_back();
        for (const auto* field : columns) row.push_back(field->write(*part));
    }
    return rows;
}

} // namespace

std::vector<Part> read_parts_file(const std::string& path) {
    std::vector<FoundPart> found;
    read_into(found, path);
    return unique_parts(std::move(found));
}

std::vector<Part> read_parts_dir(const std::string& directory) {
    std::vector<FoundPart> found;
    const auto files = csv_files(directory);
    if (files.empty()) throw BadInput(directory + ": holds no .csv file; expected parts");
    for (const auto& file : files) read_into(found, file.string());
    return unique_parts(std::move(found));
}

void write_parts_dir(const std::vector<Part>& parts, const std::string& directory) {
    std::map<std::string, std::vector<const Part*>> by_kind;
    for (const Part& part : parts) by_kind[part.kind].push_back(&part);
    std::error_code error;
    fs::create_directories(directory, error);
    if (error) throw OutsideFault(directory + ": cannot be made: " + error.message());
    for (const auto& file : csv_files(directory))
        if (!by_kind.contains(file.stem().string()))
            throw BadInput(file.string() + ": would be read together with the exported parts; "
                                           "expected an empty folder");
    for (const auto& [kind, of_kind] : by_kind)
        write_file((fs::path(directory) / (kind + ".csv")).string(), write_csv(rows_of(of_kind)));
}

} // namespace backplate
