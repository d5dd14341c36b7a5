#include "reports/number_format.h"

#include <catch2/catch.hpp>

using namespace backplate;

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

TEST_CASE("figures of the engine stand beside the units of an inch job") {
    struct Row {
        const char *value, *unit, *text;
    };
    // 25.4 mm, 0.3048 m and 1.8 °F per K, exact by definition; 100 m³/h ÷ 0.3048³ ÷ 60 = 58.86.
    const Row row = GENERATE(
        Row{"1150", "mm", "45.28 in"}, Row{"40", "°C", "104 °F"}, Row{"8", "K", "14.4 °F"},
        Row{"450", "m", "1476 ft"}, Row{"100", "m³/h", "59 ft³/min"},
        Row{"[5, 40]", "°C", "41 °F, 104 °F"}, Row{"[5,40]", "°C", "41 °F, 104 °F"},
        Row{"20", "%", ""}, Row{"IP54", "", ""}, Row{"wall", "mm", ""}, Row{"null", "mm", ""});
    CAPTURE(row.value, row.unit);
    CHECK(in_inch_units(row.value, row.unit, true) == row.text);
    CHECK(in_inch_units(row.value, row.unit, false).empty());
}
