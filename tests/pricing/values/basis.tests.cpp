#include "pricing/values/basis.h"

#include <catch2/catch.hpp>
#include <set>

using namespace backplate;

TEST_CASE("every input of a formula has a name of its own") {
    CHECK(input_letter(0) == "a");
    CHECK(input_letter(25) == "z");
    CHECK(input_letter(26) == "A");
    CHECK(input_letter(51) == "Z");
    std::set<std::string> letters;
    CHECK(input_letter(52) == "a1");
    CHECK(input_letter(103) == "Z1");
    CHECK(input_letter(104) == "a2");
    for (std::size_t i = 0; i < 1000; ++i) letters.insert(input_letter(i));
    CHECK(letters.size() == 1000);
}

TEST_CASE("basis inputs say where they stand") {
    CHECK(from_figure("/price/cost", "1", "EUR").from == BasisInput::From::figure);
    CHECK(from_request("/spare/percent", "20", "%").from == BasisInput::From::request);
    CHECK(from_rule("derating/knee", "60", "°C").from == BasisInput::From::rule);
    const BasisInput part = from_part("P-1/own_w", "2.5", "W");
    CHECK(part.from == BasisInput::From::part);
    CHECK(part.path == "P-1/own_w");
    CHECK(part.value == "2.5");
    CHECK(part.unit == "W");
}

TEST_CASE("a recorder keeps the order and gives its entries away") {
    Recorder recorder;
    BasisEntry first;
    first.figure = "/a";
    BasisEntry second;
    second.figure = "/b";
    recorder.add(first);
    recorder.add(second);
    REQUIRE(recorder.entries().size() == 2);
    const auto taken = recorder.take();
    CHECK(taken[0].figure == "/a");
    CHECK(taken[1].figure == "/b");
}
