#include <catch2/catch.hpp>

#include "app/desk/entry_check.h"
#include "app/desk/entry_rows.h"
#include "app/desk/words.h"

using namespace backplate;

namespace {

using Kind = EntryColumn::Kind;

constexpr EntryColumn columns[] = {{"signal", "Signal", 0, Kind::signal, "boxes[].points[].signal"},
                                   {"count", "Count", 0, Kind::number},
                                   {"", "Spare %", 0, Kind::spare},
                                   {"via", "Interface", 0, Kind::word, "boxes[].points[].via"},
                                   {"note", "Note", 0, Kind::text}};
const EntryList points{"points", "Points", "/points", columns};

/// A blank request with the starter rules; no engine behind it.
struct Desk {
    Desk() : rows(state, points) {
        state.inputs = std::make_shared<const Inputs>(load_inputs(":starter:"));
        state.today = Date::of(2026, 11, 24);
        state.changed = [] {};
        state.look = [] {};
    }
    std::string at(const std::string& pointer) const {
        const Node* node = state.session.value(pointer);
        return node ? node->text : "(absent)";
    }
    DeskState state;
    EntryRows rows;
};

} // namespace

TEST_CASE("count and signal come in one entry, and a beginning that is unique names a signal") {
    struct Row {
        const char* typed;
        const char* signal;
        const char* count;
    };
    // the program's own shorthand; the signals are rows of the starter rules
    const auto row =
        GENERATE(Row{"48di", "DI", "48"}, Row{"4 aim", "AI_MA", "4"}, Row{"6rt", "RTD", "6"},
                 Row{"2T", "TC", "2"}, Row{"8 dia", "DI_AC", "8"},
                 Row{"DI_AC", "DI_AC", "(absent)"}, Row{"pwm", "PWM", "(absent)"});
    CAPTURE(row.typed);
    Desk desk;
    desk.rows.write(0, 0, {{row.typed}});
    CHECK(desk.at("/boxes/0/points/0/signal") == row.signal);
    CHECK(desk.at("/boxes/0/points/0/count") == row.count);
    CHECK(desk.state.refused.empty());
}

TEST_CASE("a beginning that several signals have is refused with all of them") {
    Desk desk;
    desk.rows.write(0, 0, {{"4 ai"}});
    CHECK(desk.rows.row_count() == 1); // the count stands, the signal is asked for
    CHECK(desk.at("/boxes/0/points/0/signal") == "(absent)");
    CHECK(desk.state.refused == "Row 1, Signal: 'ai' may be AI_MA, AI_V, AI_R or AI_BRIDGE");
}

TEST_CASE("a wrong entry is not stored, says what was expected, and the old value stays") {
    Desk desk;
    desk.rows.write(0, 0, {{"DI", "12"}});
    desk.rows.write(0, 1, {{"twelve"}});
    CHECK(desk.at("/boxes/0/points/0/count") == "12");
    CHECK(desk.state.refused.starts_with("Row 1, Count: 'twelve', expected a whole number"));
    desk.rows.write(0, 1, {{"1.5"}});
    CHECK(desk.at("/boxes/0/points/0/count") == "12");
    desk.rows.write(1, 0, {{"DX"}});
    CHECK(desk.rows.row_count() == 1);
    desk.rows.write(0, 1, {{"13"}});
    CHECK(desk.state.refused.empty());
}

TEST_CASE("cells of a spreadsheet come in with their heading or without, as one step") {
    Desk desk;
    const auto [cells, count] =
        GENERATE(std::pair<CellTexts, int>{{{"DI", "12"}, {"", ""}, {"do", "8"}}, 2},
                 std::pair<CellTexts, int>{{{"Count", "Signal"}, {"12", "DI"}, {"8", "do"}}, 2},
                 std::pair<CellTexts, int>{
                     {{"I/O type", "Note", "Qty"}, {"DI", "pump", "12"}, {"DO", "", "8"}}, 2});
    desk.rows.paste(0, 0, cells);
    CHECK(desk.state.refused.empty());
    REQUIRE(desk.rows.row_count() == count);
    CHECK(desk.at("/boxes/0/points/0/signal") == "DI");
    CHECK(desk.at("/boxes/0/points/0/count") == "12");
    CHECK(desk.at("/boxes/0/points/1/signal") == "DO");
    CHECK(desk.at("/boxes/0/points/1/count") == "8");
    desk.state.session.undo();
    CHECK(desk.rows.row_count() == 0);
}

TEST_CASE("of a paste only what is wrong is left out, and counted") {
    Desk desk;
    desk.rows.paste(0, 0, {{"DI", "12"}, {"DO", "many"}, {"RTD", "few"}});
    CHECK(desk.at("/boxes/0/points/0/count") == "12");
    CHECK(desk.at("/boxes/0/points/1/signal") == "DO");
    CHECK(desk.at("/boxes/0/points/1/count") == "(absent)");
    CHECK(desk.state.refused.starts_with("Row 2, Count: 'many'"));
    CHECK(desk.state.refused.ends_with("(and 1 more not taken)"));
}

TEST_CASE("spare of a row is that of its signal and keeps the figure for the others") {
    Desk desk;
    desk.state.session.set_value("/spare/percent", Node::make_number("15"));
    desk.rows.write(0, 0, {{"DI", "12"}});
    CHECK(desk.rows.text(0, 2) == "15");
    CHECK_FALSE(desk.rows.given(0, 2));
    desk.rows.write(0, 2, {{"30"}});
    CHECK(desk.at("/spare/percent/DI") == "30");
    CHECK(desk.at("/spare/percent/default") == "15");
    desk.rows.write(0, 2, {{"301"}});
    CHECK(desk.at("/spare/percent/DI") == "30");
    desk.rows.write(0, 2, {{""}});
    CHECK(desk.at("/spare/percent/DI") == "(absent)");
}

TEST_CASE("a pointer falls under the key of its default, with its range in words") {
    CHECK(default_key("/boxes/3/points/12/amps") == "boxes[].points[].amps");
    CHECK(default_key("/job/title") == "job.title");
    const auto inputs = load_inputs(":starter:");
    CHECK(expected_at("/boxes/0/site/altitude_m", *inputs.rules) == "a number from -500 to 6000 m");
}

TEST_CASE("a fault is about its own value, what holds it and what is inside it") {
    CHECK(is_about("/boxes/0/points/1/count", "/boxes/0/points/1/count"));
    CHECK(is_about("/boxes/0/site/ambient_c", "/boxes/0/site/ambient_c/1"));
    CHECK(is_about("/boxes/0/points/1/list/2", "/boxes/0/points/1/list"));
    CHECK_FALSE(is_about("/boxes/0/points/10", "/boxes/0/points/1"));
}
