#include <catch2/catch.hpp>

#include <algorithm>

#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;
using tests::take_off_text;

namespace {

const std::string heading = "Tag,Description,Type,Signal,Panel,Qty,Remarks\n";

std::vector<std::string> reasons(const Takeoff& takeoff) {
    std::vector<std::string> words;
    for (const OpenQuestion& question : takeoff.ask) words.push_back(question.reason);
    return words;
}

} // namespace

TEST_CASE("wiring is taken where the text says it and the signal allows it") {
    const Takeoff takeoff = take_off_text(heading + "LS-1,Level,DI,24 VDC,A,,dry contact\n"
                                                    "LS-2,Level,DI,24 VDC,A,,3-wire\n"
                                                    "TE-3,Oil,RTD,Pt100 4-wire,A,,\n"
                                                    "TE-4,Oil,TC,Type K 3-wire,A,,\n"
                                                    "LT-5,Level,AI,4-20 mA HART,A,,2-wire\n"
                                                    "LS-6,Level,DI,230 V AC,A,,\n"
                                                    "LS-7,Level,DI,110-230 V AC,A,,\n");
    REQUIRE(takeoff.points.size() == 7);
    CHECK(takeoff.points[0].wiring == "contact");
    CHECK(takeoff.points[1].wiring == "3-wire");
    CHECK(takeoff.points[2].wiring == "4-wire");
    CHECK(takeoff.points[3].wiring.empty());
    CHECK(takeoff.points[4].wiring == "2-wire");
    CHECK(takeoff.points[4].hart);
    CHECK(takeoff.points[5].volts == "230");
    CHECK(takeoff.points[6].volts.empty());
}

TEST_CASE("doubtful rows are asked and not counted") {
    const Takeoff takeoff = take_off_text(heading + "LS-1…4,Level,DI,24 VDC,A,,\n"
                                                    "LS-5…8,Level,DI,24 VDC,A,4,\n"
                                                    "LS-9…12,Level,DI,24 VDC,A,3,\n"
                                                    "LS-20,Level,DI,24 VDC,A,,on hold\n"
                                                    "LS-21,Level,DI,24 VDC,A,,future\n"
                                                    "LS-22,Level,DI,24 VDC,A,,by others\n"
                                                    "LS-23,Level,DI,24 VDC,A,2,\n"
                                                    "LS-23,Level,DI,24 VDC,A,2,\n");
    CHECK(reasons(takeoff) == std::vector<std::string>{"tag_range", "qty_vs_range", "hold",
                                                       "future", "by_others", "exact_duplicate"});
    CHECK(takeoff.counts() == SignalCounts{{"DI", 6}});
    CHECK(takeoff.counts_if_accepted() == SignalCounts{{"DI", 13}});
}

TEST_CASE("a blank panel below a named one is counted and asked") {
    const Takeoff takeoff = take_off_text(heading + "LS-1,Level,DI,24 VDC,A,,\n"
                                                    "LS-2,Level,DI,24 VDC,,,\n");
    CHECK(reasons(takeoff) == std::vector<std::string>{"fill_down_panel"});
    CHECK(takeoff.panels() == PanelCounts{{"", {{"DI", 1}}}, {"A", {{"DI", 1}}}});
    CHECK(takeoff.panels_if_accepted() == PanelCounts{{"A", {{"DI", 2}}}});
}

TEST_CASE("panels that differ in case are one") {
    const Takeoff takeoff = take_off_text(heading + "LS-1,Level,DI,24 VDC,Main,,\n"
                                                    "LS-2,Level,DI,24 VDC,MAIN ,,\n");
    CHECK(takeoff.panels() == PanelCounts{{"Main", {{"DI", 2}}}});
}

TEST_CASE("a section row names the panel where no column does") {
    const Takeoff takeoff = take_off_text("Tag,Type\nHOUSE 1 - PANEL CP-A,\nLS-1,DI\n"
                                          "PANEL CP-B,\nLS-2,DI\nNotes,\nLS-3,DI\n");
    CHECK(takeoff.panels() == PanelCounts{{"CP-A", {{"DI", 1}}}, {"CP-B", {{"DI", 1}}}});
    CHECK(takeoff.rows_not_counted.at("section") == 2);
    CHECK(takeoff.rows_not_counted.at("note") == 2);
}

TEST_CASE("a stated total is compared") {
    const std::string rows = heading + "LS-1,Level,DI,24 VDC,A,,\nLS-2,Level,DI,24 VDC,A,,\n"
                                       ",Spare,DI,24 VDC,A,,\n";
    CHECK(take_off_text(rows + ",Total,2,,,,\n").total_mismatches.empty());
    CHECK(take_off_text(rows + ",Total,3,,,,\n").total_mismatches.empty());
    const Takeoff wrong = take_off_text(rows + ",Total,5,,,,\n");
    REQUIRE(wrong.total_mismatches.size() == 1);
    CHECK(wrong.total_mismatches[0].row == 5);
    CHECK(wrong.total_mismatches[0].stated.at("") == 5);
    CHECK(wrong.total_mismatches[0].counted.at("") == 2);
}

TEST_CASE("a flow total is a point, no total") {
    CHECK(take_off_text(heading + "FQ-1,Total flow,Pulse,,A,,\n").counts() ==
          SignalCounts{{"CNT", 1}});
}

TEST_CASE("a list without a heading gives nothing") {
    const Takeoff takeoff = take_off_text("1,2\n3,4\n");
    CHECK(takeoff.tables.empty());
    CHECK(reasons(takeoff) == std::vector<std::string>{"no_header"});
}

TEST_CASE("the type is the column that names kinds, whatever its heading") {
    const Takeoff takeoff = take_off_text("Tag,Type,Signal Type,Range,Panel\n"
                                          "P-1,Pump,DI,24 VDC,A\nT-1,Sensor,AI,4-20 mA,A\n"
                                          "V-1,Valve,DO,relay,A\n");
    CHECK(takeoff.counts() == SignalCounts{{"AI_MA", 1}, {"DI", 1}, {"DO_RELAY", 1}});
}

TEST_CASE("the name of a sheet may say the kind of its points") {
    ListFile file;
    ListSheet& sheet = file.sheets.emplace_back();
    sheet.name = "Digital Inputs";
    for (const Cells& cells :
         {Cells{"Tag", "Description"}, Cells{"LS-1", "Level"}, Cells{"LS-2", "Level"}}) {
        ListRow& row = sheet.rows.emplace_back();
        row.number = static_cast<int>(sheet.rows.size());
        row.cells = cells;
    }
    const Takeoff takeoff = take_off(file, tests::starter_rules(), {});
    CHECK(takeoff.panels() == PanelCounts{{"", {{"DI", 2}}}});
    sheet.name = "Pumps";
    CHECK(take_off(file, tests::starter_rules(), {}).tables.empty());
}

TEST_CASE("a cell on red is warned of, since colours are not read") {
    ListFile file;
    ListSheet& sheet = file.sheets.emplace_back();
    for (const Cells& cells : {Cells{"Tag", "Type"}, Cells{"LS-1", "DI"}}) {
        ListRow& row = sheet.rows.emplace_back();
        row.number = static_cast<int>(sheet.rows.size());
        row.cells = cells;
    }
    sheet.rows[1].red = true;
    const Takeoff takeoff = take_off(file, tests::starter_rules(), {});
    REQUIRE(takeoff.warn.size() == 1);
    CHECK(takeoff.warn[0].reason == "red_fill");
    CHECK(takeoff.counts() == SignalCounts{{"DI", 1}});
}

TEST_CASE("more points than a list may hold are refused row by row") {
    std::string rows = heading;
    for (int i = 0; i < 12; ++i) rows += "LS-" + std::to_string(i) + ",Level,DI,24 VDC,A,100000,\n";
    const Takeoff takeoff = take_off_text(rows);
    CHECK(takeoff.counts() == SignalCounts{{"DI", 1'000'000}});
    REQUIRE(takeoff.refuse_rows.size() == 2);
    CHECK(takeoff.refuse_rows[0].reason == "too_many_points");
}

TEST_CASE("a title may name the panel of a list without a column for it") {
    const std::string rows = "\nTag,Type\nLS-1,DI\n";
    const auto panels = [&](const std::string& title) {
        return take_off_text(title + rows).panels();
    };
    CHECK(panels("Panel: CP-4") == PanelCounts{{"CP-4", {{"DI", 1}}}});
    CHECK(panels("Rev,B,Panel,CP-4") == PanelCounts{{"CP-4", {{"DI", 1}}}});
    CHECK(panels("Panel list 4 of 7") == PanelCounts{{"", {{"DI", 1}}}});
    CHECK(panels("Panel list") == PanelCounts{{"", {{"DI", 1}}}});
}

TEST_CASE("a table of three kinds and more needs no known heading beside them") {
    const Takeoff takeoff = take_off_text("Bereich 1;Teil;DE;DA;AE\n;Fan;4;2;\n;Total;4;2;\n");
    CHECK(takeoff.counts() == SignalCounts{{"DI", 4}, {"DO", 2}});
    CHECK(takeoff.points.at(0).text == "Fan");
}

TEST_CASE("addresses are read without their mark where nothing else says the kind") {
    const Takeoff takeoff = take_off_text("Symbol,Address,Data Type\na,I0.0,Bool\nb,E 1.0,BOOL\n"
                                          "c,Q0.0,Bool\nd,M10.0,Bool\ne,DB 5,Bool\n");
    CHECK(takeoff.counts() == SignalCounts{{"DI", 2}, {"DO", 1}});
    CHECK(takeoff.rows_not_counted.at("soft") == 2);
}

TEST_CASE("isolation and the device in the field are taken where the list says them") {
    const Takeoff takeoff =
        take_off_text("Tag,Instrument,Type,Signal,Remarks\nFT-1,Vortex meter,AI,4-20 mA,isolated\n"
                      "FT-2,,AI,4-20 mA,potentialgetrennt\nFT-3,,AI,4-20 mA,\n");
    REQUIRE(takeoff.points.size() == 3);
    CHECK(takeoff.points[0].isolated);
    CHECK(takeoff.points[0].device == "Vortex meter");
    CHECK(takeoff.points[1].isolated);
    CHECK_FALSE(takeoff.points[2].isolated);
}

TEST_CASE("rows above a better heading are no titles") {
    const Takeoff takeoff = take_off_text("Tag,Type\nLS-1,DI\nLS-2,DI\n\n"
                                          "Tag,Description,Type,Signal,Panel\n"
                                          "YV-1,Valve,DO,relay,A\n");
    CHECK(takeoff.counts() == SignalCounts{{"DI", 2}, {"DO_RELAY", 1}});
    CHECK(takeoff.rows_not_counted == std::map<std::string, int>{{"blank", 1}, {"header", 2}});
}

TEST_CASE("notes end where a heading comes again") {
    const Takeoff takeoff = take_off_text(heading +
                                          "LS-1,Level,DI,24 VDC,A,,\nNotes,,,,,,\n"
                                          "1,some words,,,,,\n" +
                                          heading + "LS-2,Level,DI,24 VDC,A,,\n");
    CHECK(takeoff.counts() == SignalCounts{{"DI", 2}});
    CHECK(takeoff.rows_not_counted.at("note") == 2);
}

TEST_CASE("in a table of kinds a word like total may begin the name of equipment") {
    const Takeoff takeoff =
        take_off_text("Ref,Equipment,DI,AI (4-20 mA)\n1,Pump,3,\n2,Total chlorine analyser,,1\n"
                      "3,Total flow of unit 2,2,\n,Total of all units,5,1\n,TOTAL,6,1\n");
    CHECK(takeoff.counts() == SignalCounts{{"AI_MA", 1}, {"DI", 5}});
    REQUIRE(takeoff.total_mismatches.size() == 1);
    CHECK(takeoff.total_mismatches[0].row == 6);
}

TEST_CASE("a legend above the list is no list") {
    const Takeoff takeoff = take_off_text("Type,Description,,,\nDI,Digital input,,,\n"
                                          "DO,Digital output,,,\n\nTag,Service,Type,Signal,Panel\n"
                                          "LS-1,Level,DI,24 VDC,A\n");
    CHECK(takeoff.counts() == SignalCounts{{"DI", 1}});
    CHECK(takeoff.rows_not_counted.at("title") == 3);
}

TEST_CASE("a column that counts its rows is no quantity") {
    std::string rows = "Qty,Tag,Type\n";
    for (const char* number : {"1", "2", "3", "4"})
        rows += std::string(number) + ",LS-" + number + ",DI\n";
    CHECK(take_off_text(rows).counts() == SignalCounts{{"DI", 4}});
    CHECK(take_off_text(rows + "1,LS-9,DI\n").counts() == SignalCounts{{"DI", 11}});
}
