#include "tests/rule_sweep/changed_cells.h"

#include <algorithm>
#include <cctype>
#include <cstdlib>

namespace backplate {
namespace {

bool is_number(const std::string& text) {
    bool digits = false, point = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '-' && i == 0) continue;
        if (c == '.' && !point)
            point = true;
        else if (std::isdigit(static_cast<unsigned char>(c)))
            digits = true;
        else
            return false;
    }
    return digits;
}

/// "[5, 40]" -> "5", "40"; empty where it is no list of numbers.
std::vector<std::string> listed_numbers(const std::string& text) {
    std::vector<std::string> numbers;
    if (text.size() < 2 || text.front() != '[' || text.back() != ']') return numbers;
    std::string number;
    for (const char c : text.substr(1, text.size() - 2) + ",") {
        if (c == ' ') continue;
        if (c != ',') {
            number += c;
            continue;
        }
        if (!is_number(number)) return {};
        numbers.push_back(number);
        number.clear();
    }
    return numbers;
}

std::string decimal_text(long long steps, std::size_t decimals) {
    std::string digits = std::to_string(std::llabs(steps));
    if (digits.size() <= decimals) digits.insert(0, decimals + 1 - digits.size(), '0');
    if (decimals > 0) digits.insert(digits.size() - decimals, ".");
    return (steps < 0 ? "-" : "") + digits;
}

std::vector<std::vector<std::string>> changed_numbers(const std::string& text) {
    const std::size_t point = text.find('.');
    const std::size_t decimals = point == std::string::npos ? 0 : text.size() - point - 1;
    std::string digits = text;
    if (point != std::string::npos) digits.erase(point, 1);
    const long long steps = std::strtoll(digits.c_str(), nullptr, 10);
    const long long tenth = std::llabs(steps) / 10;
    std::vector<std::vector<std::string>> changes;
    for (const long long sign : {1, -1}) {
        changes.emplace_back();
        for (const long long by : {tenth, 1LL})
            if (by != 0) changes.back().push_back(decimal_text(steps + sign * by, decimals));
        changes.back().push_back(decimal_text(10 * steps + sign, decimals + 1));
    }
    return changes;
}

bool moves_figures(const std::string& table, const std::string& row, std::string_view column) {
    if (column == "minimum" || column == "maximum" || column == "decimals") return false;
    if (column == "covers") return false; // names of types
    if (column != "low" && column != "high") return true;
    for (const char* ranged : {"hours", "ratios", "estimate_classes"})
        if (table == ranged) return true;
    return column == "high" && row.starts_with("duct ");
}

} // namespace

std::vector<std::vector<std::string>> small_changes(const std::string& text) {
    if (is_number(text)) return changed_numbers(text);
    std::vector<std::vector<std::string>> changes;
    const std::vector<std::string> numbers = listed_numbers(text);
    for (std::size_t i = 0; i < numbers.size(); ++i)
        for (const std::vector<std::string>& direction : changed_numbers(numbers[i])) {
            changes.emplace_back();
            for (const std::string& changed : direction) {
                std::string list = "[";
                for (std::size_t k = 0; k < numbers.size(); ++k)
                    list += (k ? ", " : "") + (k == i ? changed : numbers[k]);
                changes.back().push_back(list + "]");
            }
        }
    return changes;
}

std::vector<NumericCell> numeric_cells(const RuleTables& tables) {
    std::vector<NumericCell> cells;
    for (std::size_t t = 0; t < tables.tables.size(); ++t) {
        const RuleTable& table = tables.tables[t];
        const TableSpec* spec = find_table_spec(table.name);
        for (std::size_t r = 0; spec && r < table.rows.size(); ++r)
            for (std::size_t c = 0; table.rows[r].active && c < spec->columns.size(); ++c) {
                const std::string_view column = spec->columns[c].key;
                const std::string& text = table.rows[r].cells[c];
                const bool words =
                    table.name == "words" || table.name == "spellings" || table.name == "headings";
                if (words || small_changes(text).empty() ||
                    !moves_figures(table.name, table.rows[r].key, column))
                    continue;
                cells.push_back(
                    {table.name, table.rows[r].key, std::string(column), t, r, c, text});
            }
    }
    return cells;
}

} // namespace backplate
