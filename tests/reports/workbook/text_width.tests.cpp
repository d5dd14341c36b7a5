#include "reports/workbook/text_width.h"

#include <catch2/catch.hpp>

using namespace backplate;

TEST_CASE("lines are counted by the widths of letters") {
    struct Row {
        const char* text;
        double points;
        int lines;
    };
    // At 10 points: a digit 5.56, a blank 2.78, "i" 2.22, "W" 9.44 (Adobe Core 14 metrics).
    const Row row =
        GENERATE(Row{"", 50, 1}, Row{"1234567890", 56, 1}, Row{"1234567890", 55, 2},
                 Row{"iiiiiiiiii", 23, 1}, Row{"WWWWWWWWWW", 23, 5}, Row{"1234 5678", 26, 2},
                 Row{"12 34 56 78", 26, 2}, Row{"a\nb\nc", 50, 3}, Row{"öö öö", 13, 2});
    CHECK(lines_of(row.text, row.points, 10) == row.lines);
}
