#include <catch2/catch.hpp>

#include "app/desk/answer_text.h"
#include "app/desk/number_entry.h"

using namespace backplate;

TEST_CASE("a typed number is a number only with the user's decimal mark") {
    struct Row {
        const char* typed;
        char mark;
        Node::Kind kind;
        const char* text;
    };
    // what an entry means is the program's own rule; a foreign mark may be a group mark
    const auto row = GENERATE(
        Row{"12", '.', Node::Kind::number, "12"}, Row{" 0.25 ", '.', Node::Kind::number, "0.25"},
        Row{"0,25", ',', Node::Kind::number, "0.25"}, Row{"-5", '.', Node::Kind::number, "-5"},
        Row{"012", '.', Node::Kind::number, "12"}, Row{"5.", '.', Node::Kind::number, "5"},
        Row{"1,200", '.', Node::Kind::text, "1,200"}, Row{"1.200", ',', Node::Kind::text, "1.200"},
        Row{"twelve", '.', Node::Kind::text, "twelve"}, Row{"1e3", '.', Node::Kind::text, "1e3"});
    CAPTURE(row.typed, row.mark);
    const auto node = typed_number(row.typed, row.mark);
    REQUIRE(node);
    CHECK(node->kind == row.kind);
    CHECK(node->text == row.text);
}

TEST_CASE("an empty entry is an absent value") {
    CHECK_FALSE(typed_number("  ", '.'));
    CHECK_FALSE(typed_text("\t"));
    CHECK(typed_text(" a b ")->text == "a b");
}

TEST_CASE("a number shows with the user's mark and comes back as it was") {
    const Node number = Node::make_number("0.250");
    CHECK(shown(&number, ',') == "0,250");
    CHECK(*typed_number(shown(&number, ','), ',') == number);
    CHECK(shown(nullptr, '.').empty());
}

TEST_CASE("amounts are grouped by threes before the mark only") {
    const FigureText point('.');
    const FigureText comma(',');
    CHECK(point.money(Money::whole(999), 2) == "999.00");
    CHECK(point.money(Money::whole(1000), 2) == "1\u202f000.00");
    CHECK(point.money(Money::whole(-1234567), 0) == "-1\u202f234\u202f567");
    CHECK(point.money(Money::whole(-100), 2) == "-100.00");
    CHECK(comma.money(Money::of_steps(123456700), 2) == "12\u202f345,67");
    CHECK(comma.number(0.12345, 3) == "0,123");
}

// 25.4 mm are an inch, 50 °C are 122 °F, both exact; 14 AWG is the least gauge of 1.5 mm² (ASTM
// B258: 2.08 mm²).
TEST_CASE("the window shows the units of the job") {
    BoxResult box;
    box.heat.inside = Watts{61.8};
    box.heat.top = Celsius{50};
    box.heat.limit = Celsius{60};
    box.heat.stage = "sealed";
    EnclosureResult enclosure;
    enclosure.part = "X";
    enclosure.width_mm = 762;
    enclosure.height_mm = 1016;
    enclosure.depth_mm = 254;
    box.enclosures.push_back(enclosure);
    box.incoming = IncomingResult{Amperes{1.5}, Amperes{6}, "1.5 mm²", "B", Amperes{13.5}, {}, {}};
    const FigureText metric('.'), inch('.', true);
    CHECK(heat_figure(box, metric) == "62 W, 50.0 °C at the top");
    CHECK(heat_figure(box, inch) == "62 W, 122.0 °F at the top");
    CHECK(heat_detail(box, inch) == "Sealed, limit 140.0 °F");
    CHECK(enclosure_figure(box, metric) == "X, 762 × 1\u202f016 × 254 mm");
    CHECK(enclosure_figure(box, inch) == "X, 30.00 × 40.00 × 10.00 in");
    CHECK(incoming_figure(box, metric) == "6 A, 1.5 mm²");
    CHECK(incoming_figure(box, inch) == "6 A, 1.5 mm² (at least 14 AWG)");
}

TEST_CASE("a pointer reads as a place counted from one") {
    CHECK(place_words("/boxes/0/points/11/count") == "box 1, points 12, count");
    CHECK(place_words("/boxes/0/site/altitude_m") == "box 1, site, altitude m");
    CHECK(place_words("/spare") == "spare");
    CHECK(place_words("").empty());
}
