#include "catalog/exchange/rules_csv.h"

#include <algorithm>
#include <filesystem>
#include <optional>

#include "catalog/cells/table.h"
#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view common_columns[] = {"source", "confidence", "note", "active"};

/// A rule file in its two forms, merged row by row into the tables that it names.
class RuleFile {
public:
    RuleFile(std::string name, const std::string& bytes)
        : name_(std::move(name)), sheet_(read_csv(name_, bytes)) {
        if (sheet_.rows.empty()) refuse("", "is empty, expected a line of headings");
        for (std::size_t i = 0; i < header().size(); ++i)
            if (std::count(header().begin(), header().end(), header()[i]) > 1)
                refuse(", column " + header()[i], "stands twice");
        flat_ = place_of("table").has_value();
        if (!place_of("row")) refuse("", "has no column row");
        if (!flat_) require_table(fs::path(name_).stem().string(), "");
        check_columns();
    }

    /// `current` with every table of the file replaced.
    RuleTables merged_into(RuleTables current) const {
        RuleTables read;
        if (!flat_) read.table(fs::path(name_).stem().string());
        for (std::size_t i = 1; i < sheet_.rows.size(); ++i)
            if (!is_blank(sheet_.rows[i])) add_row(read, current, i);
        const std::vector<RuleFault> faults = check_rules(read);
        if (!faults.empty()) refuse(place(faults.front()), faults.front().text);
        for (RuleTable& table : read.tables) current.table(table.name) = std::move(table);
        return current;
    }

private:
    using Cells = std::vector<std::string>;

    const Cells& header() const { return sheet_.rows.front(); }

    [[noreturn]] void refuse(const std::string& where, const std::string& what) const {
        throw BadInput(name_ + where + ": " + what);
    }

    std::string line(std::size_t index) const {
        return ", line " + std::to_string(sheet_.row_numbers[index]);
    }

    std::string place(const RuleFault& fault) const {
        return line_of(fault) + ", row " + (flat_ ? fault.table + "/" : "") + fault.row +
               (fault.column.empty() ? "" : ", column " + fault.column);
    }

    /// The line that a fault is about; of a row that stands twice the second one.
    std::string line_of(const RuleFault& fault) const {
        std::string found;
        for (std::size_t i = 1; i < sheet_.rows.size(); ++i) {
            const bool here =
                cell(i, "row") == fault.row && (!flat_ || cell(i, "table") == fault.table);
            if (here && (found.empty() || fault.column == "row")) found = line(i);
        }
        return found;
    }

    std::string_view cell(std::size_t index, std::string_view column) const {
        const Cells& cells = sheet_.rows[index];
        const auto at = place_of(column);
        return at && *at < cells.size() ? std::string_view(cells[*at]) : std::string_view();
    }

    std::optional<std::size_t> place_of(std::string_view column) const {
        const auto found = std::find(header().begin(), header().end(), column);
        if (found == header().end()) return std::nullopt;
        return static_cast<std::size_t>(found - header().begin());
    }

    static bool is_blank(const Cells& cells) {
        return std::all_of(cells.begin(), cells.end(), [](const auto& c) { return c.empty(); });
    }

    const TableSpec& require_table(const std::string& table, const std::string& where) const {
        if (const TableSpec* spec = find_table_spec(table)) return *spec;
        std::vector<std::string> names;
        std::string all;
        for (const TableSpec& spec : rule_schema()) {
            names.emplace_back(spec.name);
            all += " " + names.back();
        }
        const auto nearest = nearest_word(table, names);
        refuse(where, "'" + table + "' is no rule table, " +
                          (nearest.empty() ? "expected one of" + all : "nearest: " + nearest));
    }

    static bool has_column(const TableSpec& spec, std::string_view column) {
        return std::ranges::any_of(spec.columns, [&](const auto& c) { return c.key == column; });
    }

    static bool is_common(std::string_view column) {
        return std::ranges::find(common_columns, column) != std::end(common_columns);
    }

    /// Every heading is a column of the table, or of any table in a flat file.
    void check_columns() const {
        for (const std::string& column : header()) {
            if (column == "row" || is_common(column) || (flat_ && column == "table")) continue;
            const bool known = std::ranges::any_of(rule_schema(), [&](const TableSpec& spec) {
                return (flat_ || spec.name == fs::path(name_).stem().string()) &&
                       has_column(spec, column);
            });
            if (!known) refuse_column(column);
        }
    }

    [[noreturn]] void refuse_column(const std::string& column) const {
        std::vector<std::string> names{"row"};
        for (const std::string_view each : common_columns) names.emplace_back(each);
        for (const TableSpec& spec : rule_schema())
            if (flat_ || spec.name == fs::path(name_).stem().string())
                for (const ColumnSpec& each : spec.columns) names.emplace_back(each.key);
        const auto nearest = nearest_word(column, names);
        refuse(", column " + column,
               "is no column of the table" + (nearest.empty() ? "" : ", nearest: " + nearest));
    }

    void add_row(RuleTables& read, const RuleTables& current, std::size_t index) const {
        const Cells& cells = sheet_.rows[index];
        if (cells.size() != header().size())
            refuse(line(index), std::to_string(cells.size()) + " cells, expected " +
                                    std::to_string(header().size()));
        const std::string table =
            flat_ ? cells[*place_of("table")] : fs::path(name_).stem().string();
        const TableSpec& spec = require_table(table, line(index));
        RuleRow row = known_row(current, spec, cells[*place_of("row")]);
        if (row.key.empty()) refuse(line(index) + ", column row", "empty, expected a key");
        row.active = true;
        for (std::size_t i = 0; i < cells.size(); ++i)
            set_cell(row, spec, header()[i], cells[i], place({table, row.key, header()[i], ""}));
        read.table(table).rows.push_back(std::move(row));
    }

    /// The row of that key as it stands, or an empty one.
    static RuleRow known_row(const RuleTables& current, const TableSpec& spec,
                             const std::string& key) {
        if (const RuleTable* table = current.find(spec.name))
            for (const RuleRow& row : table->rows)
                if (row.key == key) return row;
        return {key, Cells(spec.columns.size()), "", "", "", true};
    }

    void set_cell(RuleRow& row, const TableSpec& spec, const std::string& column,
                  const std::string& cell, const std::string& where) const {
        if (column == "table" || column == "row") return;
        for (std::size_t i = 0; i < spec.columns.size(); ++i)
            if (spec.columns[i].key == column) row.cells[i] = cell;
        if (column == "source") row.source = cell;
        if (column == "confidence") row.confidence = cell;
        if (column == "note") row.note = cell;
        if (column == "active") {
            if (cell != "yes" && cell != "no" && !cell.empty())
                refuse(where, "'" + cell + "', expected yes or no");
            row.active = cell != "no";
        }
        if (!has_column(spec, column) && !is_common(column) && !cell.empty())
            refuse(where, "'" + cell + "', expected nothing, the table has no such column");
    }

    std::string name_;
    Sheet sheet_;
    bool flat_ = false;
};

std::vector<std::string> header_of(const TableSpec& spec) {
    std::vector<std::string> header{"row"};
    for (const ColumnSpec& column : spec.columns) header.emplace_back(column.key);
    for (const std::string_view column : common_columns) header.emplace_back(column);
    return header;
}

std::vector<std::string> cells_of(const RuleRow& row) {
    std::vector<std::string> cells{row.key};
    cells.insert(cells.end(), row.cells.begin(), row.cells.end());
    cells.insert(cells.end(), {row.source, row.confidence, row.note, row.active ? "yes" : "no"});
    return cells;
}

/// The CSV files of a directory by name. Throws BadInput where it is none.
std::vector<fs::path> csv_files(const std::string& directory) {
    std::error_code error;
    std::vector<fs::path> files;
    for (fs::directory_iterator entry(directory, error), end; !error && entry != end;
         entry.increment(error))
        if (entry->path().extension() == ".csv") files.push_back(entry->path());
    if (error == std::errc::no_such_file_or_directory || error == std::errc::not_a_directory)
        throw BadInput(directory + ": is no directory, expected one with CSV files of rules");
    if (error) throw OutsideFault(directory + ": cannot be read: " + error.message());
    std::sort(files.begin(), files.end());
    return files;
}

} // namespace

RuleTables read_rules_dir(const std::string& directory) {
    RuleTables tables;
    for (const TableSpec& spec : rule_schema()) tables.table(spec.name);
    const std::vector<fs::path> files = csv_files(directory);
    if (files.empty()) throw BadInput(directory + ": holds no CSV file, expected tables of rules");
    for (const fs::path& file : files) {
        if (!find_table_spec(file.stem().string()))
            throw BadInput(file.string() + ": is named after no rule table");
        tables = with_rules_file(tables, file.string());
    }
    return tables;
}

RuleTables with_rules_file(const RuleTables& current, const std::string& path) {
    const RuleFile file(fs::path(path).filename().string(), read_file(path));
    return file.merged_into(current);
}

void write_rules_dir(const RuleTables& tables, const std::string& directory) {
    std::error_code error;
    fs::create_directories(directory, error);
    if (error) throw OutsideFault(directory + ": cannot be made: " + error.message());
    for (const TableSpec& spec : rule_schema()) {
        std::vector<std::vector<std::string>> rows{header_of(spec)};
        if (const RuleTable* table = tables.find(spec.name))
            for (const RuleRow& row : table->rows) rows.push_back(cells_of(row));
        write_file((fs::path(directory) / (std::string(spec.name) + ".csv")).string(),
                   write_csv(rows));
    }
}

} // namespace backplate
