#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace backplate {

enum class CellType { number, integer, text, word, flag };

/// A column of a rule table: schema in code, rows in data.
struct ColumnSpec {
    std::string_view key;
    CellType type = CellType::text;
    bool required = false;
    std::string_view explanation;
    std::string_view words = {};     ///< blanks between: the words it may hold; empty: any
    double minimum = 0, maximum = 0; ///< of a number; both 0: any
};

struct TableSpec {
    std::string_view name;
    std::string_view explanation;
    std::span<const ColumnSpec> columns; ///< between `row` and `source,confidence,note,active`
    bool values = false; ///< a table of plain values: the columns of value_columns()
};

std::span<const TableSpec> rule_schema();
const TableSpec* find_table_spec(std::string_view name);
/// value, unit, low, high, minimum, maximum, explanation
std::span<const ColumnSpec> value_columns();

struct RuleRow {
    std::string key;
    std::vector<std::string> cells; ///< one per column of the table's spec
    std::string source, confidence, note;
    bool active = true;
    friend bool operator==(const RuleRow&, const RuleRow&) = default;
};

struct RuleTable {
    std::string name;
    std::vector<RuleRow> rows; ///< keys unique within the table
    friend bool operator==(const RuleTable&, const RuleTable&) = default;
};

/// All rule rows of one issue, as they are stored, exported and imported.
struct RuleTables {
    std::vector<RuleTable> tables;
    int issue = 1;

    const RuleTable* find(std::string_view name) const;
    RuleTable& table(std::string_view name); ///< added empty where absent
};

/// A cell that cannot stand: where and what was expected.
struct RuleFault {
    std::string table, row, column;
    std::string text; ///< "'x', expected a number from 0 to 1"
};

/// Every row against its column types and its own range (minimum, maximum).
std::vector<RuleFault> check_rules(const RuleTables& tables);

} // namespace backplate
