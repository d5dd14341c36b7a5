#include "pricing/book/rule_reader.h"

namespace backplate {

std::string RowView::cell(std::string_view column) const {
    for (std::size_t i = 0; i < spec_->columns.size(); ++i)
        if (spec_->columns[i].key == column) return row_->cells[i];
    return {};
}

Rule RowView::rule(std::string_view column, std::string unit) const {
    Rule rule;
    rule.id = id();
    rule.value = number(column).value_or(Decimal{});
    rule.unit = std::move(unit);
    rule.source = row_->source;
    return rule;
}

std::vector<std::string> RowView::list(std::string_view column, char mark) const {
    const std::string text = cell(column);
    std::vector<std::string> parts;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(mark, at), text.size());
        if (end > at) parts.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return parts;
}

Rule RowView::value_rule() const {
    Rule rule = this->rule("value", cell("unit"));
    rule.low = number("low");
    rule.high = number("high");
    return rule;
}

std::vector<RowView> RuleReader::rows(std::string_view table) const {
    std::vector<RowView> result;
    const TableSpec* spec = find_table_spec(table);
    const RuleTable* found = tables_.find(table);
    if (!spec || !found) return result;
    for (const RuleRow& row : found->rows)
        if (row.active) result.emplace_back(*spec, row);
    return result;
}

std::optional<RowView> RuleReader::row(std::string_view table, std::string_view key) const {
    for (const RowView& row : rows(table))
        if (row.key() == key) return row;
    return std::nullopt;
}

Rule RuleReader::number_of(const RowView& row, std::string_view table) {
    if (!row.number("value")) {
        const std::string cell = row.cell("value");
        fault(table, row.key(), "value",
              (cell.empty() ? "empty" : "'" + cell + "'") + ", expected a number");
    }
    return row.value_rule();
}

Rule RuleReader::required(std::string_view table, std::string_view key) {
    if (const std::optional<RowView> found = row(table, key)) return number_of(*found, table);
    fault(table, key, "", "is missing or not active, expected a row with a number");
    return {};
}

OptionalRule RuleReader::optional(std::string_view table, std::string_view key) {
    if (const std::optional<RowView> found = row(table, key)) return number_of(*found, table);
    return std::nullopt;
}

std::string RuleReader::required_text(std::string_view table, std::string_view key) {
    const std::optional<RowView> found = row(table, key);
    if (!found || found->cell("value").empty()) {
        fault(table, key, "", "is missing or not active, expected a row with a text");
        return "";
    }
    return found->cell("value");
}

std::map<std::string, Rule> RuleReader::all(std::string_view table) {
    std::map<std::string, Rule> result;
    for (const RowView& row : rows(table)) result.emplace(row.key(), number_of(row, table));
    return result;
}

void RuleReader::fault(std::string_view table, std::string_view row, std::string_view column,
                       std::string text) {
    faults_.push_back({std::string(table), std::string(row), std::string(column), std::move(text)});
}

} // namespace backplate
