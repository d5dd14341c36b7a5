#pragma once

#include <array>

#include "pricing/book/rule_tables.h"

/// Columns of the tables of devices, conductors, cables and small parts.
namespace backplate::rule_columns {

using enum CellType;

inline constexpr std::string_view practices = "iec north_america";

inline constexpr auto breaker_ratings =
    std::array{ColumnSpec{"practice", word, true, "practice of the list", practices},
               ColumnSpec{"ampere", number, true, "standard rating, A", {}, 0.1, 10000},
               ColumnSpec{"device", text, false, "breaker, fuse or both; empty: breaker"},
               ColumnSpec{"edition", text, false, "standard, clause and year"}};

inline constexpr auto conductors =
    std::array{ColumnSpec{"practice", word, true, "practice of the table", practices},
               ColumnSpec{"size", text, true, "as printed: 1.5 mm², 14 AWG"},
               ColumnSpec{"cross_section_mm2", number, true, "cross-section", {}, 0.01, 1000},
               ColumnSpec{"ampacity", number, true, "A", {}, 0.1, 10000},
               ColumnSpec{"edition", text, false, "standard, table and year"},
               ColumnSpec{"column", text, false, "column of that table"},
               ColumnSpec{"largest_device", number, false, "A", {}, 0.1, 10000}};

inline constexpr auto ambient_factors = std::array{
    ColumnSpec{"practice", word, true, "practice of the table", practices},
    ColumnSpec{"insulation_c", number, true, "highest of the conductor, °C", {}, 30, 250},
    ColumnSpec{"up_to_c", number, true, "air up to which it counts, °C", {}, -60, 200},
    ColumnSpec{"factor", number, true, "on the ampacity", {}, 0, 2},
    ColumnSpec{"edition", text, false, "standard, table and year"}};

inline constexpr auto grouping_factors = std::array{
    ColumnSpec{"practice", word, true, "practice of the table", practices},
    ColumnSpec{"columns", text, false, "columns of the table conductors, by blanks; empty: any"},
    ColumnSpec{
        "up_to", integer, true, "loaded wires (north_america) or circuits (iec)", {}, 1, 100000},
    ColumnSpec{"factor", number, true, "on the ampacity", {}, 0, 1},
    ColumnSpec{"edition", text, false, "standard, table and year"}};

inline constexpr auto bending_space =
    std::array{ColumnSpec{"practice", word, true, "practice of the table", practices},
               ColumnSpec{"up_to_mm2", number, true, "largest conductor", {}, 0.01, 1000},
               ColumnSpec{"space_mm", number, true, "0: none is asked", {}, 0, 1000},
               ColumnSpec{"edition", text, false, "standard, table and year"}};

inline constexpr auto surge_protection =
    std::array{ColumnSpec{"condition", text, true, "always, or terms key=value joined by and"},
               ColumnSpec{"part_kind", word, true, "kind of the arrester"},
               ColumnSpec{"functions", text, true, "functions of the arrester, by strokes"},
               ColumnSpec{"breaker_a",
                          number,
                          false,
                          "largest breaker before it; empty: the incoming device protects it",
                          {},
                          1,
                          10000}};

inline constexpr auto approval_parts = std::array{
    ColumnSpec{"approval", text, true, "word of boxes[].site.approvals"},
    ColumnSpec{"kinds", text, true, "kinds of parts that it is asked of, by blanks"},
    ColumnSpec{"pass_over", flag, true, "parts that do not state it give way to those that do"}};

inline constexpr auto small_parts =
    std::array{ColumnSpec{"part_kind", word, true, "kind of the part"},
               ColumnSpec{"function", text, true, "function of the part"},
               ColumnSpec{"driver", word, true, "what is counted",
                          "box feed device terminal strip bridge wire cable"},
               ColumnSpec{"pieces", integer, true, "parts", {}, 1, 1000},
               ColumnSpec{"per", integer, true, "for so many counted", {}, 1, 100000},
               ColumnSpec{"from_mm", number, false, "cable: least diameter", {}, 0, 200},
               ColumnSpec{"up_to_mm", number, false, "cable: greatest diameter", {}, 0, 200},
               ColumnSpec{"condition", text, true, "always, or terms key=value joined by and"},
               ColumnSpec{"group", text, true, "rows that share of_sundries"},
               ColumnSpec{"of_sundries",
                          number,
                          false,
                          "percent that the sundries fall by where the group has a line",
                          {},
                          0,
                          100}};

inline constexpr auto cables = std::array{
    ColumnSpec{
        "section_mm2", number, false, "cable of a feed: its largest conductor", {}, 0.01, 1000},
    ColumnSpec{"cores", integer, false, "cores of one channel; 0: no field cable", {}, 0, 100},
    ColumnSpec{"core_mm", number, false, "diameter of a core", {}, 0.1, 100},
    ColumnSpec{"sheath_mm", number, false, "thickness of sheath and screen", {}, 0, 50},
    ColumnSpec{"bridged", integer, false, "terminals of a channel on a common side", {}, 0, 40}};

inline constexpr auto cable_bundles =
    std::array{ColumnSpec{"cores", integer, true, "cores of the cable", {}, 1, 1000},
               ColumnSpec{"factor", number, true, "core diameters across them", {}, 1, 100}};

} // namespace backplate::rule_columns
