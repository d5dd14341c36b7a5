#include <catch2/catch.hpp>

#include <random>

#include "catalog/cells/encoding.h"
#include "catalog/cells/table.h"
#include "pricing/values/faults.h"

using namespace backplate;
using Rows = std::vector<std::vector<std::string>>;

namespace {

struct ReadCase {
    const char* what;
    std::string bytes;
    std::string encoding, delimiter;
    Rows rows;
};

std::string utf16(const std::u16string& text, bool little) {
    std::string bytes = little ? "\xFF\xFE" : "\xFE\xFF";
    for (const char16_t unit : text) {
        const char low = static_cast<char>(unit & 0xFF), high = static_cast<char>(unit >> 8);
        bytes += little ? low : high;
        bytes += little ? high : low;
    }
    return bytes;
}

/// Expected cells follow RFC 4180 where it speaks; the rest is common practice of spreadsheets.
const std::vector<ReadCase> read_cases = {
    {"plain", "a,b\nc,d\n", "utf-8", ",", {{"a", "b"}, {"c", "d"}}},
    {"no end of line at the end", "a,b\nc,d", "utf-8", ",", {{"a", "b"}, {"c", "d"}}},
    {"carriage returns", "a,b\r\nc,d\re,f", "utf-8", ",", {{"a", "b"}, {"c", "d"}, {"e", "f"}}},
    {"line break in quotes", "a,\"b\r\nc\"\nd,e\n", "utf-8", ",", {{"a", "b\r\nc"}, {"d", "e"}}},
    {"doubled quotes", "a,\"b \"\"c\"\"\"\n", "utf-8", ",", {{"a", "b \"c\""}}},
    {"quote inside a bare cell", "5\" pipe,b\n", "utf-8", ",", {{"5\" pipe", "b"}}},
    {"text behind a closing quote", "\"a\"b,c\n", "utf-8", ",", {{"ab", "c"}}},
    {"empty cells at the end", "a,,\n,,\n", "utf-8", ",", {{"a", "", ""}, {"", "", ""}}},
    {"a blank line has no cell", "a,b\n\n\"\"\n", "utf-8", ",", {{"a", "b"}, {}, {""}}},
    {"ragged rows",
     "a,b,c\nd\ne,f,g,h\n",
     "utf-8",
     ",",
     {{"a", "b", "c"}, {"d"}, {"e", "f", "g", "h"}}},
    {"mark of UTF-8",
     "\xEF\xBB\xBF"
     "a,b\n",
     "utf-8-bom",
     ",",
     {{"a", "b"}}},
    {"semicolons beside decimal commas",
     "a;1,5\nb;2,5\nc;3\n",
     "utf-8",
     ";",
     {{"a", "1,5"}, {"b", "2,5"}, {"c", "3"}}},
    {"tabs", "a\tb, c\nd\te\n", "utf-8", "\t", {{"a", "b, c"}, {"d", "e"}}},
    {"strokes", "a|b\nc|d\n", "utf-8", "|", {{"a", "b"}, {"c", "d"}}},
    {"delimiters in quotes do not count",
     "\"a;b;c\",d\n\"e;f;g\",h\n",
     "utf-8",
     ",",
     {{"a;b;c", "d"}, {"e;f;g", "h"}}},
    {"a line that says the delimiter",
     "sep=;\na,b,c;d\n",
     "utf-8",
     ";",
     {{"sep=", ""}, {"a,b,c", "d"}}},
    {"no delimiter at all", "a\nb\n", "utf-8", ",", {{"a"}, {"b"}}},
    {"empty file", "", "utf-8", ",", {}},
    {"UTF-8 beyond Latin",
     "T\xC3\xBCr,\xE7\xAA\x91\xF0\x9D\x84\x9E\n",
     "utf-8",
     ",",
     {{"T\xC3\xBCr", "\xE7\xAA\x91\xF0\x9D\x84\x9E"}}},
    {"8-bit code page",
     "T\xFCr;5 \x80;\x96\n",
     "windows-1252",
     ";",
     {{"T\xC3\xBCr", "5 \xE2\x82\xAC", "\xE2\x80\x93"}}},
    {"UTF-16 little",
     utf16(u"\u4FE1\u53F7\t\"a\tb\"\r\n\U0001D11E\tc\r\n", true),
     "utf-16-le",
     "\t",
     {{"\xE4\xBF\xA1\xE5\x8F\xB7", "a\tb"}, {"\xF0\x9D\x84\x9E", "c"}}},
    {"UTF-16 big", utf16(u"\u4FE1,b\n", false), "utf-16-be", ",", {{"\xE4\xBF\xA1", "b"}}},
    {"overlong UTF-8 is another encoding",
     "\xC0\xAF,b\n",
     "windows-1252",
     ",",
     {{"\xC3\x80\xC2\xAF", "b"}}},
};

std::string message_of(const std::string& bytes) {
    try {
        read_delimited("list.csv", bytes);
    } catch (const BadInput& fault) {
        return fault.what();
    }
    return "";
}

Rows random_rows(std::mt19937& random) {
    static const std::vector<std::string> pieces = {
        ",", ";", "\"", "\n", "\r", "\r\n", "\t", " ", "a", "=1+1", "\xC3\xBC", "\xEF\xBB\xBF", ""};
    const auto below = [&](std::size_t n) { return random() % n; };
    Rows rows;
    for (std::size_t i = 0, count = 1 + below(6); i < count; ++i) {
        auto& row = rows.emplace_back(i == 0 ? 2 + below(3) : below(4));
        for (auto& cell : row)
            for (std::size_t n = below(5); n > 0; --n) cell += pieces[below(pieces.size())];
    }
    return rows;
}

} // namespace

TEST_CASE("delimited text is read into cells") {
    for (const auto& row : read_cases) {
        CAPTURE(row.what);
        const ReadSheet found = read_delimited("list.csv", row.bytes);
        CHECK(found.reading.encoding == row.encoding);
        CHECK(found.reading.delimiter == row.delimiter);
        CHECK(found.sheet.rows == row.rows);
        CHECK(found.sheet.row_numbers.size() == row.rows.size());
    }
}

TEST_CASE("a client's list counts records, an own table counts lines") {
    const std::string text = "a,\"b\nc\"\nd,e\n";
    CHECK(read_delimited("x", text).sheet.row_numbers == std::vector<int>{1, 2});
    CHECK(read_csv("x", text).row_numbers == std::vector<int>{1, 3});
}

TEST_CASE("damaged text is refused with file and line") {
    CHECK(message_of("a,b\nc,\"d\ne\n") == "list.csv: line 2: a quoted cell begins here and never "
                                           "ends; expected a closing quote");
    CHECK(message_of(std::string("a\nb\0c\n", 6)) ==
          "list.csv: line 2: holds a NUL byte; expected plain text");
    CHECK(message_of(std::string("\xFF\xFE"
                                 "a\0b",
                                 5)) ==
          "list.csv: line 1: is no whole UTF-16 character; expected an undamaged file");
    CHECK(message_of(std::string("\xFF\xFE"
                                 "a\0\x00\xD8"
                                 "b\0",
                                 8)) ==
          "list.csv: line 1: is no whole UTF-16 character; expected an undamaged file");
    CHECK(message_of("\xEF\xBB\xBF\xFF,b\n") ==
          "list.csv: is marked as UTF-8 but holds other bytes; expected UTF-8");
}

TEST_CASE("limits of cells and rows hold at the limit and not beyond") {
    std::string umlauts;
    for (int i = 0; i < 32'767; ++i) umlauts += "\xC3\xBC";
    CHECK(message_of("a,b\nc," + umlauts + "\n").empty());
    CHECK(message_of("a,b\nc," + umlauts + "x\n") ==
          "list.csv: line 2: a cell is too long; expected at most 32767 characters");
    CHECK(message_of(std::string(1'000'000, '\n')).empty());
    CHECK(message_of(std::string(1'000'001, '\n')) ==
          "list.csv: line 1000001: has too many rows; expected at most 1000000");
}

TEST_CASE("own tables take UTF-8 with commas only") {
    CHECK(read_csv("t.csv", "\xEF\xBB\xBFrow,value\na,1\n").rows ==
          Rows{{"row", "value"}, {"a", "1"}});
    CHECK_THROWS_WITH(read_csv("t.csv", "row;value\na;1\n"),
                      "t.csv: line 1: has no comma between its headings; expected commas");
    CHECK_THROWS_WITH(read_csv("t.csv", "row\tvalue\n"), Catch::Contains("expected commas"));
    CHECK_THROWS_WITH(read_csv("t.csv", "row,T\xFCr\n"), Catch::Contains("expected UTF-8"));
    CHECK_THROWS_AS(read_csv("t.csv", utf16(u"row,value\n", true)), BadInput);
}

TEST_CASE("written text quotes only where needed") {
    CHECK(write_csv({{"a", "b c"}, {"1,5", "say \"x\"", "two\nlines"}, {""}, {}, {"", ""}}) ==
          "a,b c\n\"1,5\",\"say \"\"x\"\"\",\"two\nlines\"\n\"\"\n\n,\n");
}

TEST_CASE("any cells read back as they were written") {
    std::mt19937 random(20261124);
    for (int i = 0; i < 5000; ++i) {
        const Rows rows = random_rows(random);
        const std::string text = write_csv(rows);
        CAPTURE(text);
        REQUIRE(read_csv("x", text).rows == rows);
    }
}

TEST_CASE("any bytes end in cells or in a message") {
    std::mt19937 random(7);
    const std::string alphabet("\xFF\xFE\"\n\r,;a\xC3\xBC\0\t", 12);
    int read = 0, refused = 0;
    for (int i = 0; i < 20'000; ++i) {
        std::string bytes;
        for (auto n = random() % 12; n > 0; --n) bytes += alphabet[random() % alphabet.size()];
        try {
            for (const auto& row : read_delimited("x", bytes).sheet.rows)
                for (const auto& cell : row) REQUIRE(is_utf8(cell));
            ++read;
        } catch (const BadInput&) {
            ++refused;
        }
    }
    CHECK(read > 1000);
    CHECK(refused > 1000);
}
