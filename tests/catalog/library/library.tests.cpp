#include "catalog/library/library.h"

#include <algorithm>

#include <catch2/catch.hpp>

#include "pricing/values/faults.h"
#include "tests/catalog/library/scratch.h"

using namespace backplate;

namespace {

std::vector<Part> by_key(std::vector<Part> parts) {
    std::sort(parts.begin(), parts.end(),
              [](const Part& a, const Part& b) { return a.key < b.key; });
    return parts;
}

const ChangeNote note{"estimator", "new prices"};

/// The ordinals of the open rows of a table, in their order.
std::string ordinals(const std::string& path, const std::string& table) {
    return ask(path, "SELECT group_concat(key || ' ' || ordinal, ', ') FROM "
                     "(SELECT key, ordinal FROM rule_rows WHERE issue_to IS NULL AND "
                     "table_name = '" +
                         table + "' ORDER BY ordinal)");
}

ChangeSummary put_rates(Library& library, const std::vector<RuleRow>& rows) {
    return library.change_rules(
        [&](const RuleTables& current) {
            RuleTables changed = current;
            changed.table("rates").rows = rows;
            return changed;
        },
        note);
}

} // namespace

TEST_CASE("a library gives back what it was made of") {
    const Scratch scratch;
    make_starter(scratch.library());
    const auto read = Library(scratch.library()).read();
    CHECK(read.parts == by_key(starter().parts));
    CHECK(read.prices_issue == 1);
    CHECK(read.rules.issue == 1);
    const auto rules = starter().rules;
    for (const RuleTable& table : rules.tables) {
        CAPTURE(table.name);
        REQUIRE(read.rules.find(table.name));
        CHECK(*read.rules.find(table.name) == table);
    }
    CHECK(read.rules.tables.size() == rules.tables.size());
    CHECK(scratch.count() == 1);
}

TEST_CASE("a library keeps its promises about the file") {
    const Scratch scratch;
    make_starter(scratch.library());
    CHECK(ask(scratch.library(), "PRAGMA user_version") == "3");
    CHECK(ask(scratch.library(), "PRAGMA application_id") == std::to_string(0x42504C42));
    CHECK(ask(scratch.library(), "PRAGMA journal_mode") == "delete");
    CHECK(ask(scratch.library(), "SELECT person || ', ' || reason FROM change_sets") ==
          "estimator, starter data");
    CHECK(ask(scratch.library(), "SELECT made_at LIKE '20__-__-__T__:__:__Z' FROM change_sets") ==
          "1");
    CHECK(ask(scratch.library(), "SELECT count(*) FROM sqlite_schema WHERE type = 'table' "
                                 "AND sql NOT LIKE '%STRICT'") == "0");
}

TEST_CASE("making a library leaves the one that stands there") {
    const Scratch scratch;
    make_starter(scratch.library());
    const auto before = read_file(scratch.library());
    Library::make(scratch.library(), {}, note);
    CHECK(read_file(scratch.library()) == before);
    CHECK(scratch.count() == 1);
}

TEST_CASE("what stands already is no change") {
    const Scratch scratch;
    make_starter(scratch.library());
    const auto before = read_file(scratch.library());
    Library library(scratch.library());
    const auto parts = library.put_parts(starter().parts, OtherRows::end, note);
    CHECK_FALSE(parts.change_set);
    CHECK(parts.unchanged == static_cast<int>(starter().parts.size()));
    CHECK(parts.added + parts.changed + parts.ended == 0);
    const auto rules =
        library.change_rules([](const RuleTables&) { return starter().rules; }, note);
    CHECK_FALSE(rules.change_set);
    CHECK(rules.added + rules.changed + rules.ended == 0);
    CHECK(read_file(scratch.library()) == before);
}

TEST_CASE("a new price is one new version") {
    const Scratch scratch;
    make_starter(scratch.library());
    auto parts = starter().parts;
    const std::string key = parts.at(3).key;
    parts[3].list = Money::parse("1234.5678");
    Library library(scratch.library());
    const auto summary = library.put_parts(parts, OtherRows::end, note);
    CHECK(summary.changed == 1);
    CHECK(summary.unchanged == static_cast<int>(parts.size()) - 1);
    CHECK(summary.change_set == 2);
    const auto read = library.read();
    CHECK(read.parts == by_key(parts));
    CHECK(read.prices_issue == 2);
    CHECK(read.rules.issue == 1);
    CHECK(ask(scratch.library(), "SELECT group_concat(issue_from || '-' || ifnull(issue_to, '')) "
                                 "FROM parts WHERE key = '" +
                                     key + "'") == "1-2,2-");
    CHECK(ask(scratch.library(), "SELECT count(*) FROM parts") == std::to_string(parts.size() + 1));
}

TEST_CASE("parts that a change does not name stay or end") {
    const Scratch scratch;
    make_starter(scratch.library());
    const auto all = starter().parts;
    Part fresh = all[0];
    fresh.key = "NEW-1";
    Library library(scratch.library());
    const auto added = library.put_parts({fresh}, OtherRows::stay, note);
    CHECK(added.added == 1);
    CHECK(added.unchanged + added.changed + added.ended == 0);
    CHECK(library.read().parts.size() == all.size() + 1);
    const auto ended = library.put_parts({fresh}, OtherRows::end, note);
    CHECK(ended.ended == static_cast<int>(all.size()));
    CHECK(ended.unchanged == 1);
    CHECK(library.read().parts == std::vector<Part>{fresh});
    CHECK(library.read().prices_issue == 3);
    const auto back = library.put_parts({all[0]}, OtherRows::stay, note);
    CHECK(back.added == 1);
    CHECK(back.change_set == 4);
}

TEST_CASE("a row between two others leaves both alone") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    const auto row = [](const char* key) {
        const auto rates = starter().rules.find("rates")->rows;
        RuleRow made = rates.at(0);
        made.key = key;
        return made;
    };
    put_rates(library, {row("a"), row("b")});
    const auto between = put_rates(library, {row("a"), row("x"), row("y"), row("z"), row("b")});
    CHECK(between.added == 3);
    CHECK(between.changed == 0);
    CHECK(ordinals(scratch.library(), "rates") == "a 1.0, x 1.25, y 1.5, z 1.75, b 2.0");
    const auto moved = put_rates(library, {row("a"), row("y"), row("z"), row("b"), row("x")});
    CHECK(moved.changed == 1);
    CHECK(moved.ended == 0);
    CHECK(ordinals(scratch.library(), "rates") == "a 1.0, y 1.5, z 1.75, b 2.0, x 3.0");
    const auto read = library.read();
    CHECK(read.rules.find("rates")->rows ==
          std::vector<RuleRow>{row("a"), row("y"), row("z"), row("b"), row("x")});
    CHECK(read.rules.issue == 4);
    CHECK(read.prices_issue == 1);
}

TEST_CASE("rows that go between the same two again and again keep their order") {
    const Scratch scratch;
    std::vector<RuleRow> rows(2, starter().rules.find("rates")->rows.at(0));
    rows[0].key = "first";
    rows[1].key = "last";
    LibraryContent content;
    content.rules.table("rates").rows = rows;
    Library::make(scratch.library(), content, note);
    Library library(scratch.library());
    for (int i = 0; i < 80; ++i) { // a double halves some fifty times
        rows.insert(rows.begin() + 1, rows[0]);
        rows[1].key = "row" + std::to_string(i);
        put_rates(library, rows);
    }
    CHECK(library.read().rules.find("rates")->rows == rows);
}

TEST_CASE("a change of rules that throws leaves the bytes") {
    const Scratch scratch;
    make_starter(scratch.library());
    const auto before = read_file(scratch.library());
    Library library(scratch.library());
    CHECK_THROWS_AS(
        library.change_rules([](const RuleTables&) -> RuleTables { throw BadInput("bad"); }, note),
        BadInput);
    CHECK(read_file(scratch.library()) == before);
    CHECK(library.put_parts({starter().parts[0]}, OtherRows::end, note).change_set == 2);
}

TEST_CASE("what a library exports reads back equal and exports equal bytes") {
    const Scratch scratch;
    make_starter(scratch.library());
    const auto read = Library(scratch.library()).read();
    write_parts_dir(read.parts, scratch.file("parts"));
    write_rules_dir(read.rules, scratch.file("rules"));
    CHECK(by_key(read_parts_dir(scratch.file("parts"))) == by_key(starter().parts));
    CHECK(read_rules_dir(scratch.file("rules")).tables == starter().rules.tables);
    write_parts_dir(by_key(starter().parts), scratch.file("starter_parts"));
    write_rules_dir(starter().rules, scratch.file("starter_rules"));
    int files = 0;
    for (const char* kind : {"parts", "rules"})
        for (const auto& entry : std::filesystem::directory_iterator(scratch.file(kind))) {
            const auto name = entry.path().filename().string();
            CAPTURE(name);
            CHECK(read_file(entry.path().string()) ==
                  read_file(scratch.file(std::string("starter_") + kind + "/" + name)));
            ++files;
        }
    CHECK(files > 30);
}

// The library was made by schema 001 from the CSV files beside it; prices changed once.
TEST_CASE("a library of schema 1 opens") {
    const Scratch scratch;
    const std::string folder = source_tree + "/tests/libraries/schema_001/";
    std::filesystem::copy(folder + "library.backplate", scratch.library());
    const auto read = Library(scratch.library()).read();
    CHECK(read.parts == by_key(read_parts_dir(folder + "parts")));
    CHECK(read.prices_issue == 2);
    CHECK(read.rules.issue == 1);
    const auto rules = with_rules_file({}, folder + "rules.csv");
    for (const RuleTable& table : read.rules.tables) {
        CAPTURE(table.name);
        const auto* written = rules.find(table.name);
        CHECK(table.rows == (written ? written->rows : std::vector<RuleRow>{}));
    }
    CHECK(rules.tables.size() == 2);
}
