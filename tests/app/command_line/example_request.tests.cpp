#include <sstream>

#include <catch2/catch.hpp>

#include "app/command_line/example_request.h"
#include "catalog/exchange/request_json.h"
#include "tests/pricing/request/starter_book.h"

namespace backplate {
namespace {

/// With the first comment mark of every line removed.
std::string uncommented(const std::string& example) {
    std::istringstream lines(example);
    std::string text;
    for (std::string line; std::getline(lines, line);)
        text += (line.starts_with("// ") ? line.substr(3) : line) + "\n";
    return text;
}

std::string with_count(std::string text, const std::string& count) {
    const auto at = text.find("\"count\": 0");
    REQUIRE(at != std::string::npos);
    return text.replace(at + 9, 1, count);
}

TEST_CASE("the example is a request as it stands and with a count") {
    for (const bool north_america : {false, true}) {
        const std::string example = example_request(starter_book(), north_america);
        CHECK(parse_json("example", example).has_comments);
        CHECK(good_request(example).north_america == north_america);
        CHECK(good_request(with_count(example, "48")).boxes[0].points[0].count == 48);
    }
}

TEST_CASE("every commented value may stand and is the default") {
    for (const bool north_america : {false, true}) {
        const std::string example = example_request(starter_book(), north_america);
        const auto blank = good_request(example);
        const auto stated = good_request(uncommented(example));
        CHECK(blank.assumptions.size() >= 12);
        // the day is filled in by the program, so it is told only; it is no assumption
        CHECK(stated.assumptions.empty());
        CHECK(stated.sent.members.size() == stated.filled.members.size());
        CHECK(stated.boxes[0].site.protection == blank.boxes[0].site.protection);
    }
}

TEST_CASE("every key of the defaults stands in the example") {
    const std::string example = example_request(starter_book(), false);
    std::size_t judged = 0;
    for (const DefaultRow& row : starter_book().defaults) {
        const auto dot = row.key.rfind('.');
        const std::string name = row.key.substr(dot == std::string::npos ? 0 : dot + 1);
        INFO(row.key);
        CHECK(example.find("\"" + name + "\": ") != std::string::npos);
        ++judged;
    }
    CHECK(judged >= 144);
}

} // namespace
} // namespace backplate
