#include <catch2/catch.hpp>

#include "catalog/exchange/request_json.h"
#include "pricing/request/node_values.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

std::string refusal(const std::string& text) {
    try {
        parse_json("bid.json", text);
    } catch (const BadInput& fault) {
        return fault.what();
    }
    return "none";
}

std::string nested(std::size_t levels) {
    return std::string(levels, '[') + std::string(levels, ']');
}

TEST_CASE("values keep their kind, numbers their text, members their order") {
    const auto parsed = parse_json("t", R"({"z": [1, -0.50, 1e3, 18446744073709551615, 1.10],
        "a": {"t": true, "f": false, "n": null}, "text": "a\"\u00e9\n\ud83d\ude00"})");
    CHECK_FALSE(parsed.has_comments);
    CHECK(json_line(parsed.root) ==
          "{\"z\": [1, -0.50, 1e3, 18446744073709551615, 1.10], "
          "\"a\": {\"t\": true, \"f\": false, \"n\": null}, \"text\": \"a\\\"é\\n😀\"}");
}

TEST_CASE("comments are given back line by line, and quoted marks are none") {
    const std::string text =
        "// top\n{ \"a\\\"//\": \"/* not\", /* two\n lines */ \"b\": 1 // end\r\n}";
    CHECK(comments_of(text) == "// top\n/* two\n lines */\n// end\n");
    CHECK(comments_of("{ \"a\": \"// no comment /* either */\" }").empty());
    const auto parsed = parse_json("t", text);
    const std::string again = json_text(parsed.root, comments_of(text));
    CHECK(parse_json("t", again).root == parsed.root);
    CHECK(comments_of(again) == comments_of(text));
}

TEST_CASE("both kinds of comments are passed over and noticed") {
    const auto parsed = parse_json("t", "// first\n{ /* in\nside */ \"a\": 1 // after\n}");
    CHECK(parsed.has_comments);
    CHECK(json_line(parsed.root) == "{\"a\": 1}");
    CHECK_FALSE(parse_json("t", R"({"a": "// no comment /* either */"})").has_comments);
}

TEST_CASE("what is no request text is refused with its place") {
    struct Row {
        std::string text, fragment;
    };
    // places counted by hand
    const Row rows[] = {
        {"", "bid.json: line 1, column 1: "},
        {"{\n  \"a\": 1,\n}", "bid.json: line 3, column 1: "},
        {"{\"a\": 1} x", "bid.json: line 1, column 10: "},
        {"{\"é\" 1}", "bid.json: line 1, column 6: "},
        {"{\"a\": 01}", "bid.json: line 1, column 8: "},
        {"[1e999]", "bid.json: line 1, column "},
        {"{\"a\": NaN}", "bid.json: line 1, column "},
        {"{'a': 1}", "bid.json: line 1, column 2: "},
        {"{\"a\": \"\\ud800\"}", "bid.json: line 1, column "},
        {"{\"a\": 1 /* open", "bid.json: line 1, column "},
        {"{\"a\": \"line\nbreak\"}", "bid.json: line 1, column "},
        {"{\"a\": 1,\n \"b\": {\"c\": 1, \"c\": 2}}", "bid.json: /b/c: the key is repeated"},
        {"[0, {\"c\": 1, \"\": 3, \"c\": 2}]", "bid.json: /1/c: the key is repeated"},
        {"{\"a/b\": 1, \"a/b\": 2}", "bid.json: /a~1b: the key is repeated"},
        {"{\n\"a\": \"\xff\"}", "bid.json: line 2: is not UTF-8"},
        {"{\n\n// \xc3\n\"a\": 1}", "bid.json: line 3: is not UTF-8"},
        {nested(65), "nested too deeply, expected at most 64 levels"},
    };
    for (const Row& row : rows) {
        INFO(row.text);
        CHECK_THAT(refusal(row.text), Catch::Matchers::Contains(row.fragment));
    }
    CHECK(refusal(nested(64)) == "none");
}

TEST_CASE("more than 64 MiB are refused") {
    const std::string blanks((std::size_t{64} << 20) - 2, ' ');
    CHECK(refusal("{}" + blanks) == "none");
    CHECK_THAT(refusal("{} " + blanks), Catch::Matchers::Contains("is too large"));
}

TEST_CASE("a mark of the encoding in front does no harm") {
    CHECK(json_line(parse_json("t", "\xEF\xBB\xBF{\"a\": 1}").root) == "{\"a\": 1}");
}

TEST_CASE("a tree is written with two blanks a level") {
    const auto root = parse_json("t", R"({"a":[],"b":{},"c":[1,{"d":"x"}]})").root;
    CHECK(json_text(root) == "{\n  \"a\": [],\n  \"b\": {},\n  \"c\": [\n    1,\n    {\n"
                             "      \"d\": \"x\"\n    }\n  ]\n}\n");
}

TEST_CASE("what is written reads back equal") {
    const auto root = parse_json("t", R"({"n": [0, -1, 1.250, 2e-7], "t": "\u0001\"\\\/ é",
        "o": {"": {"deep": [[], [null, true]]}}})")
                          .root;
    CHECK(parse_json("t", json_text(root)).root == root);
}

} // namespace
} // namespace backplate
