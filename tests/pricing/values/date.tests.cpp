#include "pricing/values/date.h"

#include <catch2/catch.hpp>

using namespace backplate;

TEST_CASE("days count from 1970-01-01") {
    struct Row {
        const char* text;
        int days;
        const char* source;
    };
    const Row rows[] = {
        {"1970-01-01", 0, "definition"},
        {"1969-12-31", -1, "definition"},
        {"2000-03-01", 11017, "calendar count: 30 years, 7 leap days, 31 + 29 days"},
        {"2001-09-09", 11574, "10^9 seconds since 1970 fall on this day"},
        {"1900-01-01", -25567, "70 years with 17 leap days (1900 has none)"},
        {"9999-12-31", 2932896, "own output, checked with another calendar library"},
    };
    for (const Row& row : rows) {
        INFO(row.source);
        const auto date = Date::parse(row.text);
        REQUIRE(date);
        CHECK(date->days == row.days);
        CHECK(date->text() == row.text);
    }
}

TEST_CASE("every day reads back") {
    int judged = 0;
    for (int days = -25567; days <= 2932896; days += 97) {
        const Date date{days};
        const auto read = Date::parse(date.text());
        if (!read || !(*read == date)) FAIL(date.text());
        ++judged;
    }
    CHECK(judged > 30000);
}

TEST_CASE("days that do not exist are refused") {
    for (const char* text :
         {"2023-02-29", "1900-02-29", "2100-02-29", "2026-04-31", "2026-13-01", "2026-00-10",
          "2026-01-00", "2026-01-32", "1899-12-31", "0000-01-01"}) {
        CAPTURE(text);
        CHECK_FALSE(Date::parse(text));
    }
    CHECK(Date::parse("2000-02-29"));
    CHECK(Date::parse("2024-02-29"));
}

TEST_CASE("only YYYY-MM-DD is a date") {
    for (const char* text : {"", "2026-1-1", "26-01-01", "2026/01/01", "01-02-2026", "2026-01-011",
                             " 2026-01-01", "2026-01-01 ", "2026-+1-01", "2026-1.-01", "+026-01-01",
                             "-026-01-01", "2026-01-0x", "2026-01-1 "}) {
        CAPTURE(text);
        CHECK_FALSE(Date::parse(text));
    }
}

TEST_CASE("day arithmetic crosses months, leap days and years") {
    CHECK(Date::of(2026, 11, 24).plus_days(30).text() == "2026-12-24");
    CHECK(Date::of(2026, 12, 31).plus_days(1).text() == "2027-01-01");
    CHECK(Date::of(2024, 2, 28).plus_days(1).text() == "2024-02-29");
    CHECK(Date::of(2024, 3, 1).plus_days(-1).text() == "2024-02-29");
    CHECK(Date::of(2026, 2, 28).plus_days(1).text() == "2026-03-01");
    CHECK(Date::of(2026, 1, 1) < Date::of(2026, 1, 2));
}
