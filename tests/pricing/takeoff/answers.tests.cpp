#include <catch2/catch.hpp>

#include "catalog/exchange/list_answers_json.h"
#include "pricing/takeoff/new_spellings.h"
#include "pricing/values/faults.h"
#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;
using tests::take_off_text;

namespace {

const std::string heading = "Tag,Description,Type,Signal,Panel,Qty,Remarks\n";

TakeoffWish wish(const std::string& answers) {
    RuleBook rules = tests::starter_rules();
    for (const char* signal : {"DI", "DO", "AI_V"}) rules.signals.emplace_back().key = signal;
    TakeoffWish wish;
    wish.answers = read_list_answers(
        "answers", R"({ "format": "backplate-takeoff-answers/1", )" + answers + " }", rules);
    return wish;
}

std::size_t open_after(const std::string& rows, const std::string& answers, SignalCounts expected) {
    const Takeoff takeoff = take_off_text(heading + rows, wish("\"answers\": [" + answers + "]"));
    CHECK(takeoff.counts() == expected);
    return takeoff.ask.size();
}

} // namespace

TEST_CASE("an answer settles the rows that it is for, and no other") {
    const std::string rows = "A-1,a,XY,,P,,\nA-2,b,XY,,P,2,\nA-3,c,ZZ,,P,,\n";
    CHECK(open_after(rows, "", {}) == 3);
    CHECK(open_after(rows, R"({"reason": "type_unknown", "type": "xy", "answer": {"DI": 1}})",
                     {{"DI", 3}}) == 1);
    CHECK(open_after(rows, R"({"reason": "type_unknown", "row": 3, "answer": {"DO": 1}},
                              {"reason": "type_unknown", "answer": {"DI": 1}})",
                     {{"DI", 2}, {"DO", 1}}) == 0);
    CHECK(open_after(rows, R"({"reason": "any", "answer": "leave_out"})", {}) == 0);
    CHECK(open_after(rows, R"({"reason": "any", "answer": "accept"})", {}) == 3);
    CHECK(open_after(rows, R"({"reason": "type_unknown", "answer": "count"})", {}) == 3);
}

TEST_CASE("proposals are accepted, refused or overruled") {
    const std::string rows =
        "A-1,a,AI,,P,,\nA-2,b,DI,24 VDC,P,,on hold\nA-2,b,DI,24 VDC,P,,on hold\n";
    CHECK(open_after(rows, "", {}) == 3);
    CHECK(open_after(rows, R"({"reason": "any", "answer": "accept"})", {{"AI_MA", 1}, {"DI", 1}}) ==
          0);
    CHECK(open_after(rows, R"({"reason": "any", "answer": "count"})", {{"AI_MA", 1}, {"DI", 2}}) ==
          0);
    CHECK(open_after(rows, R"({"reason": "ai_range_missing", "answer": {"AI_V": 1}})",
                     {{"AI_V", 1}}) == 2);
}

TEST_CASE("the panel of blank cells is answered") {
    const std::string rows = heading + "A-1,a,DI,24 VDC,P,,\nA-2,b,DI,24 VDC,,,\n";
    const auto panels = [&](const char* answer) {
        return take_off_text(rows, wish(std::string(R"("answers": [ {"reason":
            "fill_down_panel", "answer": )") +
                                        answer + "} ]"))
            .panels();
    };
    CHECK(panels("\"accept\"") == PanelCounts{{"P", {{"DI", 2}}}});
    CHECK(panels(R"({"panel": "Q"})") == PanelCounts{{"P", {{"DI", 1}}}, {"Q", {{"DI", 1}}}});
}

TEST_CASE("columns are chosen by heading and by letter, with and without a heading row") {
    const auto by_heading = wish(R"("columns": {"Kind of it": "type", "Where": "panel"})");
    CHECK(take_off_text("Tag,Kind of it,Where\nA-1,DI,P\n", by_heading).panels() ==
          PanelCounts{{"P", {{"DI", 1}}}});
    const auto by_letter =
        wish(R"("heading_row": 0, "columns": {"column A": "tag", "column C": "type"})");
    const Takeoff bare = take_off_text("A-1,x,DI\nA-2,x,DO\n", by_letter);
    CHECK(bare.counts() == SignalCounts{{"DI", 1}, {"DO", 1}});
    CHECK(bare.points.at(0).tag == "A-1");
    CHECK(bare.rows.size() == 2);
    const auto passed_over = wish(R"("columns": {"Type": "ignore", "Second type": "type"})");
    CHECK(take_off_text("Tag,Type,Second type\nA-1,pump,DI\n", passed_over).counts() ==
          SignalCounts{{"DI", 1}});
}

TEST_CASE("answers read back as they were written") {
    const auto answers = wish(R"("encoding": "windows-1250", "delimiter": ";", "heading_row": 3,
        "columns": {"Pos": "tag"}, "answers": [ {"reason": "hold", "answer": "accept"},
        {"reason": "type_unknown", "sheet": "S", "row": 4, "type": "X", "answer": {"DI": 2}},
        {"reason": "fill_down_panel", "answer": {"panel": "Q"}} ])")
                             .answers;
    const std::string text = list_answers_text(answers);
    RuleBook rules;
    rules.signals.emplace_back().key = "DI";
    CHECK(list_answers_text(read_list_answers("again", text, rules)) == text);
}

TEST_CASE("a wrong file of answers is refused with its place") {
    const auto refusal = [](const std::string& text) -> std::string {
        try {
            wish(text);
        } catch (const BadInput& fault) {
            return fault.what();
        }
        return "read";
    };
    CHECK_THAT(refusal(R"("answer": [])"), Catch::Contains("/answer: is no key here"));
    CHECK_THAT(refusal(R"("columns": {"A": "kind"})"), Catch::Contains("/columns/A: expected one"));
    CHECK_THAT(refusal(R"("answers": [{"answer": "accept"}])"),
               Catch::Contains("/answers/0: has no"));
    CHECK_THAT(refusal(R"("answers": [{"reason": "hold"}])"), Catch::Contains("has no answer"));
    CHECK_THAT(refusal(R"("answers": [{"reason": "hold", "answer": "yes"}])"),
               Catch::Contains("/answers/0/answer: expected accept"));
    CHECK_THAT(refusal(R"("answers": [{"reason": "hold", "answer": {"DX": 1}}])"),
               Catch::Contains("/answers/0/answer/DX: is no signal"));
    CHECK_THAT(refusal(R"("answers": [{"reason": "hold", "answer": {"DI": 0}}])"),
               Catch::Contains("whole number from 1"));
    CHECK_THAT(refusal(R"("heading_row": -1)"), Catch::Contains("/heading_row: expected"));
    CHECK_THAT(refusal(R"("delimiter": "::")"), Catch::Contains("/delimiter: expected one"));
}

TEST_CASE("what answers teach becomes rows of the rules, once") {
    RuleTables rules;
    rules.table("spellings").rows.push_back({"DI 1", {"DI", "DI"}, "", "", "", true});
    rules.table("headings");
    const auto answers = wish(R"("columns": {"Kind": "type", "column C": "tag", "Old": "ignore"},
        "answers": [ {"reason": "type_unknown", "type": "XIN", "answer": {"DI": 1}},
                     {"reason": "type_unknown", "type": "VIN", "answer": {"AI_V": 1}},
                     {"reason": "type_unknown", "type": "BOX", "answer": {"DI": 2}},
                     {"reason": "type_unknown", "row": 3, "type": "ROW", "answer": {"DI": 1}} ])")
                             .answers;
    const RuleTables taught = with_new_spellings(rules, answers, "test");
    const auto& rows = taught.find("spellings")->rows;
    REQUIRE(rows.size() == 4);
    CHECK(rows[1] == RuleRow{"DI 2", {"DI", "XIN"}, "test", "as answered", "", true});
    CHECK(rows[2].cells == std::vector<std::string>{"AI", "VIN"});
    CHECK(rows[3].cells == std::vector<std::string>{"volts", "VIN"});
    REQUIRE(taught.find("headings")->rows.size() == 1);
    CHECK(taught.find("headings")->rows[0].cells == std::vector<std::string>{"type", "Kind"});
    CHECK(with_new_spellings(taught, answers, "test").find("spellings")->rows == rows);
}
