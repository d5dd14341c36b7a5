#include <algorithm>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/command_line/unknown_name.h"
#include "app/stored_data.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

std::string cell_of(const TableSpec& spec, const RuleRow& row, std::string_view column) {
    for (std::size_t i = 0; i < spec.columns.size(); ++i)
        if (spec.columns[i].key == column) return row.cells[i];
    return {};
}

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

Json row_json(const TableSpec& spec, const RuleRow& row) {
    Json object{{"row", row.key}};
    for (std::size_t i = 0; i < spec.columns.size(); ++i)
        object[std::string(spec.columns[i].key)] = text_or_null(row.cells[i]);
    object["source"] = text_or_null(row.source);
    object["confidence"] = text_or_null(row.confidence);
    object["note"] = text_or_null(row.note);
    object["active"] = row.active;
    return object;
}

std::size_t active_rows(const RuleTable& table) {
    return static_cast<std::size_t>(std::ranges::count(table.rows, true, &RuleRow::active));
}

/// "from 0 to 100", "at most 100", or nothing.
std::string range_text(const std::string& low, const std::string& high) {
    if (low.empty() && high.empty()) return {};
    if (low.empty()) return "at most " + high;
    return high.empty() ? "at least " + low : "from " + low + " to " + high;
}

/// A row in one line: a table of values by value, unit and explanation, others cell by cell.
std::string row_line(const TableSpec& spec, const RuleRow& row) {
    std::string text = row.key + ":";
    const std::string value = cell_of(spec, row, "value");
    if (!value.empty()) {
        const std::string unit = cell_of(spec, row, "unit");
        text += " " + value + (unit.empty() ? "" : " " + unit);
        const std::string range =
            range_text(cell_of(spec, row, "minimum"), cell_of(spec, row, "maximum"));
        if (!range.empty()) text += " (" + range + ")";
        const std::string does = cell_of(spec, row, "explanation");
        if (!does.empty()) text += " - " + does;
    } else {
        for (std::size_t i = 0; i < spec.columns.size(); ++i)
            if (!row.cells[i].empty())
                text += fmt::format(" {}={};", spec.columns[i].key, row.cells[i]);
    }
    return row.active ? text : text + " [not active]";
}

int show_tables(const RuleTables& rules, bool json) {
    Json list = Json::array();
    for (const TableSpec& spec : rule_schema()) {
        const RuleTable* table = rules.find(spec.name);
        const std::size_t rows = table ? table->rows.size() : 0;
        const std::size_t active = table ? active_rows(*table) : 0;
        if (json)
            list.push_back({{"table", spec.name},
                            {"rows", rows},
                            {"active", active},
                            {"explanation", spec.explanation}});
        else
            fmt::print("{:<16} {:>5} rows  {}{}\n", spec.name, rows, spec.explanation,
                       active == rows ? "" : fmt::format(" ({} not active)", rows - active));
    }
    if (json) fmt::print("{}\n", Json{{"issue", rules.issue}, {"tables", list}}.dump(2));
    return done;
}

int show_table(const TableSpec& spec, const RuleTable& table, int issue, bool json) {
    if (json) {
        Json list = Json::array();
        for (const RuleRow& row : table.rows) list.push_back(row_json(spec, row));
        const Json result{{"table", spec.name},
                          {"explanation", spec.explanation},
                          {"issue", issue},
                          {"rows", list}};
        fmt::print("{}\n", result.dump(2));
        return done;
    }
    fmt::print("{}: {}\n", spec.name, spec.explanation);
    for (const RuleRow& row : table.rows) fmt::print("  {}\n", row_line(spec, row));
    fmt::print("{}, issue {}\n", counted(table.rows.size(), "row"), issue);
    return done;
}

void print_cell(std::string_view name, const std::string& cell, std::string_view meaning) {
    if (!cell.empty())
        fmt::print("  {:<12} {}{}{}\n", name, cell, meaning.empty() ? "" : "  - ", meaning);
}

int show_row(const TableSpec& spec, const RuleRow& row, int issue, bool json) {
    if (json) {
        Json object = row_json(spec, row);
        object["table"] = spec.name;
        object["issue"] = issue;
        fmt::print("{}\n", object.dump(2));
        return done;
    }
    fmt::print("{}/{}\n", spec.name, row.key);
    for (std::size_t i = 0; i < spec.columns.size(); ++i)
        print_cell(spec.columns[i].key, row.cells[i], spec.columns[i].explanation);
    print_cell("source", row.source, "");
    print_cell("confidence", row.confidence, "");
    print_cell("note", row.note, "");
    print_cell("active", row.active ? "yes" : "no", "");
    print_cell("issue", std::to_string(issue), "last change of the rules");
    return done;
}

const TableSpec& require_table(const std::string& name) {
    if (const TableSpec* spec = find_table_spec(name)) return *spec;
    std::vector<std::string> names;
    for (const TableSpec& spec : rule_schema()) names.emplace_back(spec.name);
    refuse_unknown(name, "rule table", names);
}

const RuleRow& require_row(const RuleTable& table, const std::string& key) {
    std::vector<std::string> keys;
    for (const RuleRow& row : table.rows) {
        if (row.key == key) return row;
        keys.push_back(row.key);
    }
    refuse_unknown(key, "row of the table " + table.name, keys);
}

} // namespace

int run_rules_show(const std::string& name, const CommonArguments& common) {
    const RuleTables rules = load_content(common.library).rules;
    if (name.empty()) return show_tables(rules, common.json);
    const auto stroke = name.find('/');
    const TableSpec& spec = require_table(name.substr(0, stroke));
    const RuleTable* table = rules.find(spec.name);
    const RuleTable empty{std::string(spec.name), {}};
    if (!table) table = &empty;
    if (stroke == std::string::npos) return show_table(spec, *table, rules.issue, common.json);
    return show_row(spec, require_row(*table, name.substr(stroke + 1)), rules.issue, common.json);
}

} // namespace backplate
