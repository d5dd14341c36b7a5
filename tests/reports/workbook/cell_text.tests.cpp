#include "reports/workbook/cell_text.h"

#include <string>

#include <catch2/catch.hpp>

using namespace backplate;

TEST_CASE("text of a cell is what every reader takes back") {
    struct Row {
        std::string given, wanted;
    };
    // RFC 3629 for the byte sequences, XML 1.0 section 2.2 for the characters.
    const Row row =
        GENERATE(Row{"", ""}, Row{"=1+1", "=1+1"}, Row{"Öfen ß × 😀", "Öfen ß × 😀"},
                 Row{"a\x01z", "a z"}, Row{std::string("a\0z", 3), "a z"}, Row{"a\tb", "a b"},
                 Row{"a\r\nb", "a\nb"}, Row{"a\x7Fz", "a z"}, Row{"bad \xFF!", "bad \uFFFD!"},
                 Row{"cut \xC3", "cut \uFFFD"}, Row{"long \xC0\xAF", "long \uFFFD\uFFFD"},
                 Row{"half \xED\xA0\x80", "half \uFFFD\uFFFD\uFFFD"},
                 Row{"none \xEF\xBF\xBF", "none \uFFFD\uFFFD\uFFFD"},
                 Row{"_x0041_", "_x005F_x0041_"}, Row{"_x004_", "_x004_"});
    CHECK(cell_text(row.given) == row.wanted);
}

TEST_CASE("text of a cell is never longer than a cell holds") {
    const std::string full(32767, 'x');
    CHECK((cell_text(full) == full));
    CHECK((cell_text(full + "x") == full.substr(1) + "…"));
    std::string wide; // two units each
    for (int i = 0; i < 20000; ++i) wide += "😀";
    CHECK(cell_text(wide).size() == 16383 * 4 + std::string("…").size());
}

TEST_CASE("text of a footer keeps its ampersands and its length") {
    CHECK(footer_text("Gates & screens\nnew", 60) == "Gates && screens new");
    CHECK(footer_text("Öfenlager", 4) == "Öfen…");
}
