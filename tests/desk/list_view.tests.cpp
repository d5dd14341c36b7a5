#include <catch2/catch.hpp>

#include "app/desk/list_view.h"
#include "app/inputs.h"

using namespace backplate;

namespace {

OpenQuestion question(int row, const std::string& type, std::optional<SignalCounts> proposal) {
    OpenQuestion asked;
    asked.row = row;
    asked.reason = proposal ? "ai_range_missing" : "type_unknown";
    asked.type = type;
    asked.proposal = std::move(proposal);
    return asked;
}

} // namespace

TEST_CASE("columns are lettered as in a spreadsheet") {
    CHECK(column_letters(0) == "A");
    CHECK(column_letters(25) == "Z");
    CHECK(column_letters(26) == "AA");
    CHECK(column_letters(701) == "ZZ");
    CHECK(column_letters(702) == "AAA");
}

TEST_CASE("questions about one type text are one question with all their rows") {
    Takeoff takeoff;
    takeoff.ask = {question(7, "AI", SignalCounts{{"AI_MA", 1}}),
                   question(9, "WIDGET", std::nullopt),
                   question(8, "AI", SignalCounts{{"AI_MA", 1}})};
    const auto groups = question_groups(takeoff);
    REQUIRE(groups.size() == 2);
    CHECK(groups[0].rows == std::vector<int>{7, 8});
    const TextRows rows = question_rows(groups);
    CHECK(rows[0][0] == "7 +1");
    CHECK(rows[0][2] == "as 1 AI_MA");
    CHECK(rows[1][2] == "please choose");
    const ListAnswer answer = groups[0].answer(ListAnswer::Does::accept);
    CHECK(answer.reason == "ai_range_missing");
    CHECK(answer.type == "AI");
    CHECK_FALSE(answer.row);
}

TEST_CASE("what is typed for a row is read as signals or refused") {
    const auto inputs = load_inputs(":starter:");
    CHECK(typed_counts("DI", *inputs.rules) == SignalCounts{{"DI", 1}});
    CHECK(typed_counts("2 di, 1 do", *inputs.rules) == SignalCounts{{"DI", 2}, {"DO", 1}});
    CHECK_FALSE(typed_counts("widget", *inputs.rules));
    CHECK_FALSE(typed_counts("2 ai", *inputs.rules)); // one of four
    CHECK_FALSE(typed_counts("0 di", *inputs.rules));
}

TEST_CASE("the outcomes of all rows are said with their sum") {
    using Is = RowOutcome::Is;
    Takeoff takeoff;
    takeoff.rows = {{"", 1, Is::not_counted, "heading"},
                    {"", 2, Is::counted, ""},
                    {"", 3, Is::asked, "type_unknown"},
                    {"", 4, Is::refused, "row_too_long"}};
    CHECK(outcome_words(takeoff) == "4 rows: 1 counted, 1 not counted, 1 asked, 1 refused");
    CHECK(outcome_sign(Is::counted) == "✓ counted");
    CHECK(outcome_sign(std::nullopt).empty());
}
