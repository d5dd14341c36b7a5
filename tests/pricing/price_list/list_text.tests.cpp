#include "pricing/price_list/list_text.h"

#include <catch2/catch.hpp>

#include "pricing/values/faults.h"

using namespace backplate;

TEST_CASE("amounts are parted from their currency") {
    struct Row {
        const char *cell, *figures, *currency;
    };
    // Codes of ISO 4217; the placing of signs is common practice, no source.
    const Row row = GENERATE(Row{"12.50", "12.50", ""}, Row{"€ 1.250,00", "1.250,00", "EUR"},
                             Row{"1 250,00 EUR", "1 250,00", "EUR"}, Row{"USD12.5", "12.5", "USD"},
                             Row{"£7", "7", "GBP"}, Row{"$ 3.10", "3.10", "$"}, Row{"-4", "-4", ""},
                             Row{".50", ".50", ""}, Row{"", "", ""}, Row{"on request", "", ""},
                             Row{"\u00A012,50\u00A0€", "12,50", "EUR"});
    CAPTURE(row.cell);
    const auto amount = split_amount(row.cell);
    REQUIRE(amount);
    CHECK(amount->figures == row.figures);
    CHECK(amount->currency == row.currency);
}

TEST_CASE("an amount beside other words is none") {
    for (const char* cell : {"12.50 per pack", "EUR 12 EUR", "ca. 12", "12.50 *"}) {
        CAPTURE(cell);
        CHECK_FALSE(split_amount(cell));
    }
}

TEST_CASE("numbers lose their thousands marks and nothing else") {
    struct Row {
        const char* figures;
        char decimal;
        const char* plain; ///< null: refused
    };
    // Groups of three with blank, point, comma or apostrophe: SI brochure 5.4.4 for the blank, the
    // others common practice, no source.
    const Row row = GENERATE(
        Row{"1.250,00", ',', "1250.00"}, Row{"1,250.00", '.', "1250.00"},
        Row{"1 250,5", ',', "1250.5"}, Row{"1'250.50", '.', "1250.50"},
        Row{"1’250’000", '.', "1250000"}, Row{"1\u202F250,50", ',', "1250.50"},
        Row{"12,5", ',', "12.5"}, Row{"12", ',', "12"}, Row{",5", ',', "0.5"},
        Row{"1.250", ',', "1250"}, Row{"1.250", '.', "1.250"}, Row{"-3,5", ',', "-3.5"},
        Row{"12.50", ',', nullptr}, Row{"1.25.000", ',', nullptr}, Row{"1,2500.00", '.', nullptr},
        Row{"1 250.000,00", ',', nullptr}, Row{"1,250,0", '.', nullptr}, Row{"", '.', nullptr},
        Row{"1,2,3", ',', nullptr}, Row{"1234.567,00", ',', nullptr}, Row{".", '.', nullptr});
    CAPTURE(row.figures, row.decimal);
    const auto plain = plain_number(row.figures, row.decimal);
    CHECK(plain.value_or("refused") == (row.plain ? row.plain : "refused"));
}

TEST_CASE("the decimal mark is found out from all amounts") {
    struct Row {
        std::vector<PlacedText> amounts;
        char mark;
    };
    const Row row = GENERATE(Row{{}, '.'}, Row{{{1, "12"}, {2, "7"}}, '.'}, Row{{{1, "12,5"}}, ','},
                             Row{{{1, "1.250"}, {2, "3,20"}}, ','}, Row{{{1, "1.250,00"}}, ','},
                             Row{{{1, "1,250.00"}}, '.'}, Row{{{1, "1.250.000"}}, ','},
                             Row{{{1, "0.125"}}, '.'}, Row{{{1, "1,250"}, {2, "0.90"}}, '.'},
                             Row{{{1, "1234.567"}}, '.'});
    CHECK(find_decimal_mark("l", row.amounts) == row.mark);
}

TEST_CASE("a decimal mark that nothing tells is asked for") {
    CHECK_THROWS_WITH(find_decimal_mark("l.csv", {{4, "12"}, {5, "1.250"}}),
                      Catch::Contains("l.csv: row 5: '1.250' may have decimals or thousands"));
    CHECK_THROWS_WITH(find_decimal_mark("l.csv", {{4, "12,5"}, {5, "1.2"}}),
                      Catch::Contains("row 4: '12,5' and row 5: '1.2' have different"));
}

TEST_CASE("dates in the forms that lists have") {
    struct Row {
        const char* cell;
        bool day_first;
        const char* date; ///< null: refused
    };
    // ISO 8601 with and without hyphens; day before month with points is common practice.
    const Row row =
        GENERATE(Row{"2026-11-24", true, "2026-11-24"}, Row{"20261124", true, "2026-11-24"},
                 Row{"24.11.2026", false, "2026-11-24"}, Row{"4.1.2026", true, "2026-01-04"},
                 Row{"24/11/2026", true, "2026-11-24"}, Row{"11/24/2026", false, "2026-11-24"},
                 Row{"2026-11-24 00:00:00", true, "2026-11-24"}, Row{"24.11.26", true, nullptr},
                 Row{"29.02.2027", true, nullptr}, Row{"24/11/2026", false, nullptr},
                 Row{"46350", true, nullptr}, Row{"soon", true, nullptr});
    CAPTURE(row.cell, row.day_first);
    CHECK(plain_date(row.cell, row.day_first).value_or("refused") ==
          (row.date ? row.date : "refused"));
}

TEST_CASE("the order of dates is found out or asked for") {
    CHECK(find_day_first("l", {{1, "01.02.2026"}}));
    CHECK(find_day_first("l", {{1, "01/02/2026"}, {2, "13/02/2026"}}));
    CHECK_FALSE(find_day_first("l", {{1, "01/02/2026"}, {2, "02/13/2026"}}));
    CHECK_THROWS_AS(find_day_first("l", {{1, "01/02/2026"}}), BadInput);
    CHECK_THROWS_AS(find_day_first("l", {{1, "13/02/2026"}, {2, "02/13/2026"}}), BadInput);
}

TEST_CASE("keys are compared without case, blanks and hyphens") {
    CHECK(folded_key("vc 101-a") == "VC101A");
    CHECK(folded_key("VC\u2011101\u00A0A") == "VC101A");
    CHECK(folded_key("VC.101") != folded_key("VC101"));
}
