#include "reports/number_format.h"

#include <catch2/catch.hpp>

using namespace backplate;

TEST_CASE("lengths follow the document's units") {
    struct Row {
        double millimetres;
        const char *metric, *inch;
    };
    // 25.4 mm to the inch, exact by definition (ISO 31-1); computed by hand.
    const Row row = GENERATE(Row{1000, "1000 mm", "39.37 in"}, Row{25.4, "25.4 mm", "1.00 in"},
                             Row{0, "0 mm", "0.00 in"}, Row{152.46, "152.5 mm", "6.00 in"});
    CHECK(length_text(row.millimetres, false) == row.metric);
    CHECK(length_text(row.millimetres, true) == row.inch);
}

TEST_CASE("sizes are width, height, depth") {
    CHECK(size_text(800, 1000, 300, false) == "800 × 1000 × 300 mm");
    CHECK(size_text(800, 1000, 300, true) == "31.50 × 39.37 × 11.81 in");
}

TEST_CASE("temperatures follow the document's units") {
    struct Row {
        double celsius;
        const char *metric, *inch;
    };
    // Fixed points of the scales and 51.3 × 1.8 + 32 by hand.
    const Row row = GENERATE(Row{0, "0.0 °C", "32.0 °F"}, Row{100, "100.0 °C", "212.0 °F"},
                             Row{-40, "-40.0 °C", "-40.0 °F"}, Row{51.3, "51.3 °C", "124.3 °F"});
    CHECK(temperature_text(row.celsius, false) == row.metric);
    CHECK(temperature_text(row.celsius, true) == row.inch);
}

TEST_CASE("conductors name their equivalent in the other system") {
    struct Row {
        const char* size;
        bool inch;
        const char* text;
    };
    // Areas of ASTM B258 as printed in common gauge tables: 14 AWG 2.08, 10 AWG 5.26, 1/0 53.5,
    // 4/0 107 mm².
    const Row row = GENERATE(
        Row{"1.5 mm²", false, "1.5 mm²"}, Row{"14 AWG", true, "14 AWG"},
        Row{"14 AWG", false, "14 AWG (2.08 mm²)"}, Row{"10 AWG", false, "10 AWG (5.26 mm²)"},
        Row{"4/0 AWG", false, "4/0 AWG (107.22 mm²)"},
        Row{"1.5 mm²", true, "1.5 mm² (at least 14 AWG)"},
        Row{"35 mm²", true, "35 mm² (at least 1 AWG)"},
        Row{"50 mm²", true, "50 mm² (at least 1/0 AWG)"}, Row{"300 mm²", true, "300 mm²"},
        Row{"busbar", true, "busbar"}, Row{"x mm²", true, "x mm²"});
    CHECK(conductor_text(row.size, row.inch) == row.text);
}
