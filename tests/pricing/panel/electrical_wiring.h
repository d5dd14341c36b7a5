#pragma once

#include <map>
#include <optional>
#include <utility>

#include "pricing/panel/conductors.h"
#include "tests/pricing/panel/electrical_tables.h"

// Judges of what lies together, bends and enters.
namespace backplate::electrical {

/// The factor of the rules for so many together, by a conductor of the column.
inline double grouping(const char* practice, const char* size, const char* column,
                       double together) {
    const Conductor* row = cell(practice, size, column);
    REQUIRE(row);
    const WireFactors factors =
        wire_factors(starter_rules(), std::string(practice) == "north_america", *row,
                     {std::nullopt, static_cast<int>(together)});
    REQUIRE(factors.grouping);
    return factors.grouping->factor.number();
}

inline int american_bundling(const Node& table) {
    int judged = 0;
    for (const Node& row : table.find("rows")->items)
        for (const char* end : {"from", "to"}) {
            const Node& wires = *row.find(end);
            const double count = wires.is(Node::Kind::null) ? 1000 : number(wires);
            CAPTURE(count);
            CHECK(grouping("north_america", "12 AWG", "60 °C", count) * 100 ==
                  Approx(number(*row.find("pct"))));
            ++judged;
        }
    return judged;
}

inline int iec_grouping(const Node& table) {
    int judged = 0;
    const auto circuits = numbers(*table.find("circuits"));
    for (const auto& [key, columns] :
         {std::pair<const char*, std::vector<const char*>>{"B1_B2", {"B1", "B2"}},
          {"C", {"C"}},
          {"E", {"E"}}})
        for (const char* column : columns)
            for (std::size_t i = 0; i < circuits.size(); ++i) {
                CAPTURE(column, circuits[i]);
                CHECK(grouping("iec", "2.5 mm²", column, circuits[i]) ==
                      number(table.find(key)->items[i]));
                ++judged;
            }
    CHECK(grouping("iec", "2.5 mm²", "B1", 10) == 0); // beyond the table
    return judged;
}

/// "8-6": both ends of the sizes.
inline int bending_spaces(const Node& table) {
    int judged = 0;
    for (const Member& member : table.members) {
        if (member.key == "conf" || member.key == "src") continue;
        const std::size_t dash = member.key.find('-');
        for (const std::string& size :
             {member.key.substr(0, dash),
              dash == std::string::npos ? member.key : member.key.substr(dash + 1)}) {
            const Conductor* conductor = cell("north_america", size + " AWG", "60 °C");
            CAPTURE(size);
            REQUIRE(conductor);
            const BendingSpace* row = bending_row(starter_rules(), true, *conductor);
            REQUIRE(row);
            CHECK(row->space_mm.number() ==
                  (member.value.is(Node::Kind::null) ? 0 : number(member.value)));
            ++judged;
        }
    }
    return judged;
}

inline int glands(const Node& table) {
    int judged = 0;
    for (const Node& expected : table.find("rows")->items)
        for (const SmallPartRow& row : starter_rules().small_parts)
            if (row.function == "gland M" + number_text(number(*expected.find("m")))) {
                CHECK(row.from->number() == number(*expected.find("min")));
                CHECK(row.up_to->number() == number(*expected.find("max")));
                ++judged;
            }
    CHECK(judged == static_cast<int>(table.find("rows")->items.size()));
    return judged;
}

/// Rows round to three decimals; a row holds for all numbers of cores up to its own.
inline int bundles(const Node& table) {
    int judged = 0;
    for (const Member& member : table.members) {
        if (!number_value(member.value) || member.key == "1") continue;
        for (const BundleRow& row : starter_rules().bundles)
            if (std::to_string(row.cores) == member.key) {
                CHECK(row.factor.number() == Approx(number(member.value)).margin(0.0006));
                ++judged;
            }
    }
    return judged;
}

inline std::map<std::string, Judge> tables_of_wiring() {
    return {{"conductors/nec_310_15_C_1", american_bundling},
            {"conductors/iec_60204_1_grouping_D2", iec_grouping},
            {"mechanical/nec_312_6_A_one_wire_mm", bending_spaces},
            {"mechanical/gland", glands},
            {"mechanical/bundle_k_circles_in_circle", bundles}};
}

} // namespace backplate::electrical
