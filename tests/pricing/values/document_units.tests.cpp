#include "pricing/values/document_units.h"

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

TEST_CASE("differences of temperature and distances follow the document's units") {
    // 1 K is 1.8 °F and 1 ft is 0.3048 m, both exact by definition (ISO 80000-5, ISO 31-1).
    CHECK(rise_text(8, false) == "8.0 K");
    CHECK(rise_text(8, true) == "14.4 °F");
    CHECK(distance_text(450, false) == "450 m");
    CHECK(distance_text(1000, true) == "3281 ft");
    CHECK(distance_text(304.8, true) == "1000 ft");
    CHECK(distance_text(-12.5, false) == "-12.5 m");
}

TEST_CASE("a stated temperature keeps a decimal only where it has one") {
    // By hand: 40 × 1.8 + 32 = 104, -7.5 × 1.8 + 32 = 18.5.
    CHECK(stated_temperature_text(40, false) == "40 °C");
    CHECK(stated_temperature_text(40, true) == "104 °F");
    CHECK(stated_temperature_text(-7.5, true) == "18.5 °F");
}

TEST_CASE("a range of lengths names its unit once, and equal ends are one length") {
    CHECK(length_range_text(4.5, 10, false) == "4.5 to 10 mm");
    CHECK(length_range_text(6, 12, true) == "0.24 to 0.47 in"); // 25.4 mm an inch, exact
    CHECK(length_range_text(9.3, 9.3, false) == "9.3 mm");
}
