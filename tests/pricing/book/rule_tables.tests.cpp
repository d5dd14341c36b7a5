#include <catch2/catch.hpp>

#include <set>

#include "tests/pricing/book/sample_rules.h"

using namespace backplate;

namespace {

struct CellCase {
    const char *table, *row, *column, *cell, *message;
};

// Own rules of the tables; the ranges stand in the schema or in the row itself.
const CellCase wrong_cells[] = {
    {"supply", "utilisation", "low", "a", "'a', expected a number"},
    {"supply", "utilisation", "low", "1e3", "'1e3', expected a number"},
    {"supply", "utilisation", "high", "0.5", "'0.8', expected a number up to 0.5, the high"},
    {"supply", "utilisation", "low", "0.9", "'0.9', expected a number up to 0.8, the value"},
    {"supply", "utilisation", "minimum", "0.9", "'0.8', expected a number from 0.9"},
    {"supply", "utilisation", "maximum", "0.7", "'0.8', expected a number up to 0.7"},
    {"price_policy", "currency", "minimum", "1", "'EUR', expected a number from 1"},
    {"hours", "mount_module", "value", "", "empty, expected a number from 0 to 100000"},
    {"hours", "mount_module", "value", "-1", "'-1', expected a number from 0 to 100000"},
    {"hours", "mount_module", "count", "twice", "'twice', expected one of once each"},
    {"hours", "mount_module", "learning", "true", "'true', expected yes or no"},
    {"hours", "mount_module", "activity", "two words", "'two words', expected a word"},
    {"hours", "mount_module", "driver", "", "empty, expected a text"},
    {"signals", "DI", "power", "", "empty, expected one of input loop_in"},
    {"signals", "DI", "power", "inp", "'inp', expected one of input loop_in"},
    {"signals", "DI", "amps", "101", "'101', expected a number from 0 to 100"},
    {"conductors", "iec 1.5", "practice", "IEC", "'IEC', expected one of iec north_america"},
    {"conductors", "iec 1.5", "ampacity", "0", "'0', expected a number from 0.1 to 10000"},
    {"defaults", "commercial.margin_percent", "decimals", "1.0",
     "'1.0', expected a whole number from 0 to 9"},
    {"defaults", "commercial.margin_percent", "decimals", "10",
     "'10', expected a whole number from 0 to 9"},
};

} // namespace

TEST_CASE("every table of the schema has its own name and its own columns") {
    std::set<std::string_view> names;
    for (const TableSpec& spec : rule_schema()) {
        CAPTURE(spec.name);
        CHECK(names.insert(spec.name).second);
        CHECK(find_table_spec(spec.name) == &spec);
        CHECK_FALSE(spec.explanation.empty());
        std::set<std::string_view> columns{"row", "source", "confidence", "note", "active"};
        for (const ColumnSpec& column : spec.columns) {
            CHECK(columns.insert(column.key).second);
            CHECK_FALSE(column.explanation.empty());
        }
        if (spec.values) CHECK(spec.columns.size() == value_columns().size());
    }
    CHECK(names.size() == 63);
    CHECK(find_table_spec("prices") == nullptr);
}

TEST_CASE("a sound set of tables has no fault") { CHECK(check_rules(sample::rules()).empty()); }

TEST_CASE("a wrong cell is named with place and expectation") {
    for (const CellCase& each : wrong_cells) {
        CAPTURE(each.table, each.row, each.column, each.cell);
        RuleTables tables = sample::rules();
        sample::set(tables, each.table, each.row, each.column, each.cell);
        const std::vector<RuleFault> faults = check_rules(tables);
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].table == each.table);
        CHECK(faults[0].row == each.row);
        CHECK_THAT(faults[0].text, Catch::StartsWith(each.message));
    }
    CHECK(std::size(wrong_cells) >= 20);
}

TEST_CASE("rows that are not active are checked as well") {
    RuleTables tables = sample::rules();
    sample::row_of(tables, "hours", "mount_module").active = false;
    sample::set(tables, "hours", "mount_module", "value", "many");
    CHECK(check_rules(tables).size() == 1);
}

TEST_CASE("tables, keys and cells must be those of the schema") {
    RuleTables tables = sample::rules();
    tables.table("suply");
    tables.table("rates").rows.push_back(sample::row("rates", "shop", {{"value", "1"}}));
    tables.table("risk").rows[0].cells.pop_back();
    tables.table("room").rows[0].key.clear();
    const std::vector<RuleFault> faults = check_rules(tables);
    REQUIRE(faults.size() == 4);
    CHECK(faults[0].text == "empty, expected a key");
    CHECK(faults[1].text == "stands twice in the table");
    CHECK(faults[2].text == "6 cells, expected 7");
    CHECK(faults[3].text == "is no rule table");
}
