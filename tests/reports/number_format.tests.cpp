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
