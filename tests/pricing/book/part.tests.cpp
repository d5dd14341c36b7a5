#include "pricing/book/part.h"

#include <catch2/catch.hpp>

using namespace backplate;

TEST_CASE("net price is the list price less every discount") {
    struct Row {
        const char *list, *net;
        std::vector<const char*> discounts;
    };
    // The last row: 600.00 less 9/21/15, the example of trade-practice 4.1; the others by hand.
    const std::vector<Row> rows = {{"118.00", "89.6800", {"20", "5"}},
                                   {"11.80", "7.4340", {"30", "10"}},
                                   {"22.50", "13.7490", {"9", "21", "15"}},
                                   {"7.40", "7.4000", {}},
                                   {"50", "0.0000", {"100"}},
                                   {"600.00", "366.6390", {"9", "21", "15"}}};
    for (const auto& row : rows) {
        Part part;
        part.list = Money::parse(row.list);
        for (const char* discount : row.discounts)
            part.discounts.push_back(*Percent::parse(discount));
        CAPTURE(row.list);
        CHECK(part.net()->unit_text(4) == row.net);
    }
    CHECK_FALSE(Part{}.net());
}

TEST_CASE("groups of channels read and write") {
    const auto groups =
        parse_groups("DI*14@0.004;DO*10@0.5/4.0+isolated;AI_MA|AI_V|RTD*4@0.025+hart");
    REQUIRE(groups);
    REQUIRE(groups->size() == 3);
    CHECK((*groups)[0].channels == 14);
    CHECK((*groups)[0].channel_a == 0.004);
    CHECK_FALSE((*groups)[0].common_a);
    CHECK((*groups)[1].common_a == 4.0);
    CHECK((*groups)[1].isolated);
    CHECK_FALSE((*groups)[1].hart);
    CHECK((*groups)[2].signals == std::vector<std::string>{"AI_MA", "AI_V", "RTD"});
    CHECK((*groups)[2].hart);
    CHECK(groups_text(*groups) == "DI*14@0.004;DO*10@0.5/4+isolated;AI_MA|AI_V|RTD*4@0.025+hart");
    CHECK(parse_groups("")->empty());
}

TEST_CASE("the text of groups reads back to equal groups") {
    for (const std::string text : {"DI*8", "DO*4@0/6", "TC*1+isolated+hart", "DO*1024@100/100"})
        CHECK(groups_text(*parse_groups(text)) == text);
}

TEST_CASE("wrong groups are refused") {
    for (const std::string text :
         {"DI",         "DI*",       "*8",         "DI*0",       "DI*1025",    "DI*8.0",
          "DI*-1",      "di*8",      "DI 1*8",     "DI|*8",      "|DI*8",      "DI*8@",
          "DI*8@x",     "DI*8@-1",   "DI*8@101",   "DI*8@0.5/",  "DI*8@0.5/x", "DI*8@0.5/4/4",
          "DI*8+",      "DI*8+fast", "DI*8++hart", "DI*8@+hart", "DI*8;",      ";DI*8",
          "DI*8;;DO*8", "DI*8*8"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_groups(text));
    }
}
