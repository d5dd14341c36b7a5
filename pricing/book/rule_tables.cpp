#include "pricing/book/rule_tables.h"

#include <algorithm>
#include <optional>
#include <set>

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

bool holds_word(std::string_view words, std::string_view wanted) {
    for (std::size_t start = 0; start < words.size();) {
        const std::size_t end = std::min(words.find(' ', start), words.size());
        if (words.substr(start, end - start) == wanted) return true;
        start = end + 1;
    }
    return false;
}

bool is_whole(std::string_view cell) { return cell.find('.') == std::string_view::npos; }

bool within(const ColumnSpec& column, double number) {
    const bool any = column.minimum == 0 && column.maximum == 0;
    return any || (column.minimum <= number && number <= column.maximum);
}

bool fits(const ColumnSpec& column, const std::string& cell) {
    switch (column.type) {
    case CellType::number:
    case CellType::integer: {
        const std::optional<Decimal> number = parse_decimal(cell);
        if (!number || (column.type == CellType::integer && !is_whole(cell))) return false;
        return within(column, number->number());
    }
    case CellType::flag: return cell == "yes" || cell == "no";
    case CellType::word:
        return column.words.empty() ? cell.find_first_of(" \t\n,") == std::string::npos
                                    : holds_word(column.words, cell);
    case CellType::text: return true;
    }
    return false;
}

std::string range_text(const std::string& low, const std::string& high) {
    if (low.empty() && high.empty()) return "";
    if (high.empty()) return " from " + low;
    return low.empty() ? " up to " + high : " from " + low + " to " + high;
}

std::string expected(const ColumnSpec& column) {
    const bool any = column.minimum == 0 && column.maximum == 0;
    const std::string range =
        any ? "" : range_text(number_text(column.minimum), number_text(column.maximum));
    switch (column.type) {
    case CellType::number: return "a number" + range;
    case CellType::integer: return "a whole number" + range;
    case CellType::flag: return "yes or no";
    case CellType::word:
        return column.words.empty() ? "a word without blanks"
                                    : "one of " + std::string(column.words);
    case CellType::text: return "a text";
    }
    return "";
}

std::string wrong(const std::string& cell, const std::string& expectation) {
    return (cell.empty() ? "empty" : "'" + cell + "'") + ", expected " + expectation;
}

/// The checks of one row: each cell by its column, then the figures against one another.
class RowCheck {
public:
    RowCheck(const TableSpec& spec, const RuleRow& row, std::vector<RuleFault>& faults)
        : spec_(spec), row_(row), faults_(faults) {}

    void run() {
        if (row_.key.empty()) return add("row", "empty, expected a key");
        if (row_.cells.size() != spec_.columns.size())
            return add("", number_text(static_cast<double>(row_.cells.size()), 0) +
                               " cells, expected " +
                               number_text(static_cast<double>(spec_.columns.size()), 0));
        const std::size_t before = faults_.size();
        for (std::size_t i = 0; i < spec_.columns.size(); ++i)
            check_cell(spec_.columns[i], row_.cells[i]);
        if (faults_.size() > before) return;
        for (const char* column : {"value", "low", "high"}) check_own_range(column);
        check_order("low", "value");
        check_order("value", "high");
        check_order("low", "high");
    }

private:
    void add(std::string_view column, std::string text) {
        faults_.push_back(
            {std::string(spec_.name), row_.key, std::string(column), std::move(text)});
    }

    void check_cell(const ColumnSpec& column, const std::string& cell) {
        if (cell.empty() ? column.required : !fits(column, cell))
            add(column.key, wrong(cell, expected(column)));
    }

    std::string cell(std::string_view column) const {
        for (std::size_t i = 0; i < spec_.columns.size(); ++i)
            if (spec_.columns[i].key == column) return row_.cells[i];
        return "";
    }

    void check_own_range(const char* column) {
        const std::string text = cell(column);
        const std::string low = cell("minimum"), high = cell("maximum");
        if (text.empty() || (low.empty() && high.empty())) return;
        const std::optional<Decimal> value = parse_decimal(text);
        const bool inside = value && (low.empty() || number_of(low) <= value->number()) &&
                            (high.empty() || value->number() <= number_of(high));
        if (!inside) add(column, wrong(text, "a number" + range_text(low, high)));
    }

    void check_order(const char* lesser, const char* greater) {
        const std::optional<Decimal> low = parse_decimal(cell(lesser));
        const std::optional<Decimal> high = parse_decimal(cell(greater));
        if (low && high && low->number() > high->number())
            add(lesser,
                wrong(cell(lesser), "a number up to " + cell(greater) + ", the " + greater));
    }

    static double number_of(const std::string& text) { return parse_decimal(text)->number(); }

    const TableSpec& spec_;
    const RuleRow& row_;
    std::vector<RuleFault>& faults_;
};

} // namespace

const RuleTable* RuleTables::find(std::string_view name) const {
    for (const RuleTable& table : tables)
        if (table.name == name) return &table;
    return nullptr;
}

RuleTable& RuleTables::table(std::string_view name) {
    for (RuleTable& table : tables)
        if (table.name == name) return table;
    return tables.emplace_back(RuleTable{std::string(name), {}});
}

std::vector<RuleFault> check_rules(const RuleTables& tables) {
    std::vector<RuleFault> faults;
    for (const RuleTable& table : tables.tables) {
        const TableSpec* spec = find_table_spec(table.name);
        if (!spec) {
            faults.push_back({table.name, "", "", "is no rule table"});
            continue;
        }
        std::set<std::string_view> keys;
        for (const RuleRow& row : table.rows) {
            if (!keys.insert(row.key).second)
                faults.push_back({table.name, row.key, "row", "stands twice in the table"});
            RowCheck(*spec, row, faults).run();
        }
    }
    return faults;
}

} // namespace backplate
