#include <catch2/catch.hpp>

#include "pricing/request/node_values.h"
#include "tests/pricing/request/starter_book.h"

namespace backplate {
namespace {

TEST_CASE("all faults are named, in the order of their places") {
    // lists by number, objects by key: own output
    std::string lines;
    for (int i = 0; i < 11; ++i) lines += std::string(i ? ", " : "") + R"({"signal": "DI"})";
    const auto result = checked(tree_of(
        R"({"format": "backplate-request/1", "risk": {"seed": -1}, "boxes": [{"points": [)" +
        lines + R"(]}], "job": {"due": "soon", "date": 3}})"));
    CHECK_FALSE(result.request);
    REQUIRE(result.faults.size() == 14);
    CHECK(result.faults[0].where == "/boxes/0/points/0/count");
    CHECK(result.faults[2].where == "/boxes/0/points/2/count");
    CHECK(result.faults[10].where == "/boxes/0/points/10/count");
    CHECK(result.faults[11].where == "/job/date");
    CHECK(result.faults[12].where == "/job/due");
    CHECK(result.faults[13].where == "/risk/seed");
}

TEST_CASE("what is no object at all has one fault at the root") {
    for (const char* json : {"null", "[]", "3", "\"text\""}) {
        INFO(json);
        const auto result = checked(tree_of(json));
        REQUIRE(result.faults.size() == 1);
        CHECK(result.faults[0].where.empty());
        CHECK(result.faults[0].text ==
              std::string(json[0] == '"' ? "'text'" : json) + ", expected an object");
    }
}

TEST_CASE("a stroke in an unknown key is escaped in its pointer") {
    const auto result = checked(tree_of(small_request(R"("a/b~c": 1)", "", "")));
    REQUIRE(result.faults.size() == 1);
    CHECK(result.faults[0].where == "/a~1b~0c"); // RFC 6901, 3
}

TEST_CASE("null stands where it is the default and nowhere else") {
    CHECK(
        checked(tree_of(small_request(R"("job": {"title": null, "due": null})", "", ""))).request);
    CHECK(checked(tree_of(small_request("", "", R"("via": null, "list": null)"))).request);
    CHECK_FALSE(checked(tree_of(small_request(R"("job": {"valid_days": null})", "", ""))).request);
    CHECK_FALSE(checked(tree_of(small_request("", "", R"("wiring": null)"))).request);
    // a contact has a voltage, a resistance thermometer has none
    CHECK_FALSE(checked(tree_of(small_request("", "", R"("volts": null)"))).request);
    CHECK(checked(tree_of(R"({"format": "backplate-request/1", "boxes": [{"points": [
        {"signal": "RTD", "count": 1, "volts": null}]}]})"))
              .request);
}

TEST_CASE("a request takes every word that its keys have, as far as the product acts on it") {
    std::size_t judged = 0;
    const auto passes = [&](const std::string& request) {
        ++judged;
        return checked(tree_of(request)).faults.empty();
    };
    for (const WordRow& row : starter_book().words) {
        INFO(row.key << " = " << row.word);
        const std::string word = json_quoted(row.word);
        if (row.key == "boxes[].site.protection" && row.word.front() != '/')
            CHECK(passes(small_request("", R"("site": {"protection": )" + word + "}", "")));
        if (row.key == "boxes[].site.mounting")
            CHECK(passes(small_request("", R"("site": {"mounting": )" + word + "}", "")));
        if (row.key == "boxes[].choices.cooling")
            CHECK(passes(small_request("", R"("choices": {"cooling": )" + word + "}", "")));
        if (row.key == "circumstances")
            CHECK(passes(small_request(R"("circumstances": [)" + word + "]", "", "")));
        if (row.key == "commercial.delivery_term")
            CHECK(
                passes(small_request(R"("commercial": {"delivery_term": )" + word + "}", "", "")));
    }
    CHECK(judged >= 50);
}

TEST_CASE("protection takes the codes of IEC 60529 and dual marks") {
    const auto passes = [](const std::string& mark) {
        return checked(tree_of(small_request("", R"("site": {"protection": ")" + mark + "\"}", "")))
            .faults.empty();
    };
    for (const char* mark : {"IP20", "IP54", "IP69", "IPX5", "IP66/IP67", "Type 4X"})
        CHECK(passes(mark));
    for (const char* mark : {"IP", "IP7", "IP74", "IP54/", "ip54", "IP54 ", "Type 7", "Type12"})
        CHECK_FALSE(passes(mark));
}

TEST_CASE("numbers may be written with an exponent and physics with any decimals") {
    const auto request =
        good_request(small_request("", R"("site": {"altitude_m": 4.5e2})",
                                   R"("amps": 0.12345678901234567, "on_together_percent": 5e1)"));
    CHECK(request.boxes[0].site.altitude_m == 450.0);
    CHECK(request.boxes[0].points[0].amps == 0.12345678901234567);
    CHECK(request.boxes[0].points[0].on_together == Percent::whole(50));
}

TEST_CASE("where a point came from is kept and checked") {
    const char* origin = R"("origin": {"file": "list.csv", "sheet": null, "row": 7})";
    const auto request = good_request(small_request(
        "", "", std::string(origin) + R"(, "list": [{"tag": "A", )" + origin + "}, {}, {}, {}]"));
    const Node* row = at_pointer(request.filled, "/boxes/0/points/0/list/0/origin/row");
    REQUIRE(row);
    CHECK(row->text == "7");
    CHECK_FALSE(checked(tree_of(small_request("", "", R"("origin": {"line": 7})"))).request);
}

TEST_CASE("an echoed request passes again, fills to itself and assumes nothing") {
    for (const std::string& json :
         {test_file("worked_jobs/fish_pass/request.json"), small_request("", "", ""),
          small_request(R"("commercial": {"markup_percent": 25})",
                        R"("choices": {"enclosure": {"part": "ENC-1"}},
                            "equipment": [{"text": "Radio"}, {"part": "NET-8"}])",
                        R"("via": "direct")")}) {
        const Node filled = good_request(json).filled;
        const BidRequest again = good_request(json_line(filled));
        CHECK(again.filled == filled);
        CHECK(again.assumptions.empty());
    }
}

} // namespace
} // namespace backplate
