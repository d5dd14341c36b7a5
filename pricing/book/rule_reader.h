#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/book/rule_book.h"

namespace backplate {

/// One active row of a table with its cells by column.
class RowView {
public:
    RowView(const TableSpec& spec, const RuleRow& row) : spec_(&spec), row_(&row) {}

    const std::string& key() const { return row_->key; }
    std::string id() const { return std::string(spec_->name) + "/" + row_->key; }
    const std::string& note() const { return row_->note; }
    /// Empty where the table has no such column.
    std::string cell(std::string_view column) const;
    bool flag(std::string_view column) const { return cell(column) == "yes"; }
    std::optional<Decimal> number(std::string_view column) const {
        return parse_decimal(cell(column));
    }
    /// The number in `column` as a rule; 0 where there is none.
    Rule rule(std::string_view column, std::string unit) const;
    /// What stands in `column` between the marks; none where it is empty.
    std::vector<std::string> list(std::string_view column, char mark = ' ') const;
    /// A row of plain values as a rule, with its unit and range.
    Rule value_rule() const;

private:
    const TableSpec* spec_;
    const RuleRow* row_;
};

/// Reads the active rows of rule tables that passed check_rules and collects what is missing.
class RuleReader {
public:
    RuleReader(const RuleTables& tables, std::vector<RuleFault>& faults)
        : tables_(tables), faults_(faults) {}

    /// In the order of the table; empty where the table is absent.
    std::vector<RowView> rows(std::string_view table) const;
    std::optional<RowView> row(std::string_view table, std::string_view key) const;

    /// A row that must hold a number: a fault and 0 where it does not.
    Rule required(std::string_view table, std::string_view key);
    /// A row that may be absent; a fault where it is there without a number.
    OptionalRule optional(std::string_view table, std::string_view key);
    /// The text of a row that must be there.
    std::string required_text(std::string_view table, std::string_view key);
    /// Every row of a table of numbers, by key.
    std::map<std::string, Rule> all(std::string_view table);

    void fault(std::string_view table, std::string_view row, std::string_view column,
               std::string text);

private:
    Rule number_of(const RowView& row, std::string_view table);

    const RuleTables& tables_;
    std::vector<RuleFault>& faults_;
};

/// The views of a book, each from its tables.
void read_figures(RuleReader& reader, RuleBook& book);
/// After read_figures: columns of the conductors are looked up there.
void read_grouping(RuleReader& reader, RuleBook& book);
void read_site(RuleReader& reader, RuleBook& book);
void read_room(RuleReader& reader, RuleBook& book);
void read_suites(RuleReader& reader, RuleBook& book);
void read_lists(RuleReader& reader, RuleBook& book);
/// After read_lists: activities, classes and signals are looked up there.
void read_labour(RuleReader& reader, RuleBook& book);
/// After read_lists: words and scope keys are looked up there.
void read_site_parts(RuleReader& reader, RuleBook& book);
/// After read_lists: words and scope keys are looked up there.
void read_small_parts(RuleReader& reader, RuleBook& book);
/// After read_lists: words, defaults and findings are looked up there.
void read_texts_of_offer(RuleReader& reader, RuleBook& book);
/// After read_lists: words and scope keys are looked up there.
void read_price(RuleReader& reader, RuleBook& book);

} // namespace backplate
