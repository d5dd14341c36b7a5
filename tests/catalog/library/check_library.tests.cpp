#include "catalog/library/check_library.h"

#include <catch2/catch.hpp>

#include "pricing/values/faults.h"
#include "tests/catalog/library/scratch.h"

using namespace backplate;

TEST_CASE("a library as it was made is sound and stays as it is") {
    const Scratch scratch;
    make_starter(scratch.library());
    const auto before = read_file(scratch.library());
    CHECK(check_library(scratch.library()).empty());
    CHECK(read_file(scratch.library()) == before);
}

TEST_CASE("each kind of fault is found") {
    struct Row {
        const char* statements;
        const char* fault;
    };
    const Row rows[] = {
        {"INSERT INTO change_sets VALUES (3, '', '', '')",
         "change sets: 2 change sets are numbered 1 to 3"},
        {"DROP INDEX parts_open; INSERT INTO change_sets VALUES (2, '', '', ''); "
         "INSERT INTO parts (key, issue_from, change_set, cells) "
         "SELECT key, 2, 2, cells FROM parts WHERE id = 1",
         "has two versions at one issue"},
        {"DROP INDEX rule_rows_open; DROP INDEX rule_rows_order; "
         "INSERT INTO change_sets VALUES (2, '', '', ''); "
         "INSERT INTO rule_rows (table_name, key, ordinal, issue_from, change_set, cells) "
         "SELECT table_name, key, 99, 2, 2, cells FROM rule_rows WHERE table_name = 'rates'",
         "versions of rules: rates/"},
        {"PRAGMA foreign_keys = OFF; UPDATE parts SET issue_to = 7 WHERE id = 1",
         "references: parts row 1 names no row of change_sets"},
        {"UPDATE parts SET cells = '{' WHERE id = 1", "cells: "},
        {"UPDATE parts SET cells = json_set(cells, '$.width_mm', '-1') WHERE id = 1",
         "field width_mm: '-1' cannot be read"},
        {"UPDATE rule_rows SET cells = json_set(cells, '$.value', 'much') "
         "WHERE table_name = 'rates'",
         "rules: table rates"},
        {"DELETE FROM rule_rows WHERE table_name = 'signals'", "rules: table signals"},
        {"PRAGMA ignore_check_constraints = ON; UPDATE parts SET issue_to = 1 WHERE id = 1",
         "pages: CHECK constraint failed in parts"},
    };
    for (const Row& row : rows) {
        CAPTURE(row.statements);
        const Scratch scratch;
        make_starter(scratch.library());
        tamper(scratch.library(), row.statements);
        const auto faults = check_library(scratch.library());
        std::string all;
        for (const auto& fault : faults) all += fault + "\n";
        CHECK_THAT(all, Catch::Contains(row.fault));
    }
}

TEST_CASE("spoilt pages are a fault") {
    const Scratch scratch;
    make_starter(scratch.library());
    auto bytes = read_file(scratch.library());
    bytes.replace(bytes.size() / 2, 20000, 20000, 'x');
    write_file(scratch.library(), bytes);
    CHECK_FALSE(check_library(scratch.library()).empty());
}

TEST_CASE("what cannot be opened as a library is not judged") {
    const Scratch scratch;
    make_starter(scratch.library());
    std::filesystem::resize_file(scratch.library(), 16384);
    CHECK_THROWS_AS(check_library(scratch.library()), OutsideFault);
    write_file(scratch.library(), "text");
    CHECK_THROWS_AS(check_library(scratch.library()), OutsideFault);
    CHECK_THROWS_AS(check_library(scratch.file("none")), OutsideFault);
}
