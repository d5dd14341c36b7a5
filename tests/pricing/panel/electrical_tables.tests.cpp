#include <algorithm>
#include <iostream>
#include <map>
#include <utility>

#include "pricing/panel/conductors.h"
#include "pricing/panel/control_transformer.h"
#include "pricing/panel/cooling.h"
#include "pricing/panel/short_circuit.h"
#include "tests/pricing/panel/electrical_wiring.h"

using namespace backplate;
using namespace backplate::electrical;

namespace {

std::vector<double> amperes(const std::vector<Rule>& rows) {
    std::vector<double> result;
    for (const Rule& row : rows) result.push_back(row.number());
    return result;
}

int american_ampacities(const Node& table) {
    int judged = 0;
    for (const Node& row : table.find("rows")->items)
        for (const auto& [key, column] :
             {std::pair{"c60", "60 °C"}, {"c75", "75 °C"}, {"c90", "90 °C"}})
            judged +=
                judge_cell("north_america", row.find("awg")->text + " AWG", column, *row.find(key));
    return judged;
}

int iec_ampacities(const Node& table) {
    int judged = 0;
    for (const Node& row : table.find("rows")->items)
        for (const char* column : {"B1", "B2", "C", "E"})
            judged += judge_cell("iec", row.find("mm2")->text + " mm²", column, *row.find(column));
    return judged;
}

int largest_devices(const Node& table) {
    int judged = 0;
    for (const Member& member : table.members) {
        if (!number_value(member.value)) continue;
        for (const Conductor& row : starter_rules().conductors)
            if (row.size == member.key + " AWG" && row.column == "90 °C") {
                CHECK(row.largest_device->number() == number(member.value));
                ++judged;
            }
    }
    return judged;
}

int panel_wiring(const Node& table) {
    CHECK(starter_rules().smallest_incoming_north_america ==
          table.find("min_power_awg")->text + " AWG");
    int judged = 1;
    for (const Member& member : table.find("control_ampacity_memory_A")->members)
        judged += judge_cell("north_america", member.key + " AWG", "control", member.value);
    return judged;
}

int ratings(const std::vector<double>& rows, const std::vector<double>& expected) {
    CHECK(rows == expected);
    return static_cast<int>(expected.size());
}

int iec_ratings(const Node& table, std::size_t from) {
    const auto all = amperes(starter_rules().breaker_ratings_iec);
    const auto expected = numbers(*table.find("values_A"));
    REQUIRE(from + expected.size() <= all.size());
    const auto begin = all.begin() + static_cast<std::ptrdiff_t>(from);
    return ratings({begin, begin + static_cast<std::ptrdiff_t>(expected.size())}, expected);
}

int fuses_only(const Node& table) {
    const auto breakers = amperes(starter_rules().breaker_ratings_north_america);
    std::vector<double> rows;
    for (const double fuse : amperes(starter_rules().fuse_ratings_north_america))
        if (std::find(breakers.begin(), breakers.end(), fuse) == breakers.end())
            rows.push_back(fuse);
    return ratings(rows, numbers(*table.find("values_A")));
}

/// A mark with the numeral meets the same with any lower one (0 to 6).
int numerals(const Node& table, const std::string& before, const std::string& after) {
    int judged = 0;
    for (const Member& offered : table.members)
        for (const Member& asked : table.members) {
            if (offered.key.size() > 1 || asked.key.size() > 1) continue;
            if (offered.key > "6" || asked.key > "6") continue;
            CAPTURE(offered.key, asked.key);
            CHECK(mark_meets(before + offered.key + after, before + asked.key + after,
                             starter_rules()) == (offered.key >= asked.key));
            ++judged;
        }
    return judged;
}

bool holds(const Node& list, const std::string& text) {
    return std::any_of(list.items.begin(), list.items.end(),
                       [&](const Node& item) { return item.text == text; });
}

/// No indoor type meets an outdoor one.
int locations(const Node& table) {
    int judged = 0;
    for (const Node& indoor : table.find("indoor_only")->items)
        for (const Node& outdoor : table.find("indoor_or_outdoor")->items) {
            CAPTURE(indoor.text, outdoor.text);
            CHECK_FALSE(mark_meets("Type " + indoor.text, "Type " + outdoor.text, starter_rules()));
            ++judged;
        }
    return judged;
}

/// A type meets another only if it protects against all that the other does. Against settling dust
/// and oil seepage the table lists fewer types than the trade lets stand for Types 5, 12 and 12K:
/// these pairs are custom (from memory), and no others.
int protections(const Node& table) {
    int judged = 0;
    const auto& types = table.find("types")->members;
    for (const Member& offered : types)
        for (const Member& asked : types) {
            const bool all = std::all_of(
                asked.value.items.begin(), asked.value.items.end(),
                [&](const Node& against) { return holds(offered.value, against.text); });
            const bool custom =
                asked.key == "5" || asked.key == "12" || asked.key == "12K" || asked.key == "2";
            CAPTURE(offered.key, asked.key);
            if (mark_meets("Type " + offered.key, "Type " + asked.key, starter_rules()))
                CHECK((all || custom));
            ++judged;
        }
    return judged;
}

/// Compared: the rule row or function stands in the judge.
/// The factor that the rules give for insulation and air; 0: hotter than the table.
double factor_of(bool american, const char* insulation, double air_c) {
    RuleBook rules = starter_rules();
    auto& columns = rules.conductor_columns;
    (american ? columns.insulation_north_america : columns.insulation_iec)->value =
        *parse_decimal(insulation);
    const auto factor = ambient_factor(rules, american, air_c);
    REQUIRE(factor);
    return factor->factor.number();
}

int american_ambient(const Node& table) {
    int judged = 0;
    for (const Node& row : table.find("rows")->items)
        for (const char* column : {"60", "75", "90"}) {
            const Node* cell = row.find("c" + std::string(column));
            const double upper = number(*row.find("upper_C"));
            if (upper > 70) continue; // no request is for hotter air
            CAPTURE(column, upper);
            const bool empty = !cell || cell->is(Node::Kind::null);
            // the rows leave out factors above 1, which are not taken
            CHECK(factor_of(true, column, upper) == (empty ? 0 : std::min(1.0, number(*cell))));
            ++judged;
        }
    return judged;
}

int iec_ambient(const Node& table) {
    int judged = 0;
    for (const Node& row : table.find("rows")->items) {
        CHECK(factor_of(false, "70", number(*row.find("C"))) ==
              std::min(1.0, number(*row.find("k"))));
        ++judged;
    }
    return judged;
}

/// Kinds of the table that are parts of the price book here.
int short_circuit_defaults(const Node& table) {
    const auto row = [&](const char* kind, const char* key) {
        Part part;
        part.kind = kind;
        CAPTURE(kind);
        CHECK(rated_ka(part, true, starter_rules()) == number(*table.find(key)));
        return 1;
    };
    return row("terminal", "terminal_block") + row("incoming", "circuit_breaker_unmarked") +
           row("main_switch", "switch_unit") + row("device", "motor_controller_to_50hp");
}

int transformer_percentages(const Node& table) {
    const TransformerRules& rules = *starter_rules().transformers;
    const Node& alone = *table.find("primary_only");
    const Node& both = *table.find("primary_and_secondary");
    for (const auto& [row, value] :
         {std::pair{&rules.alone_high_percent, alone.find("I_ge_9A")},
          {&rules.alone_percent, alone.find("I_2_to_9A")},
          {&rules.alone_low_percent, alone.find("I_lt_2A")},
          {&rules.primary_percent, both.find("primary")},
          {&rules.secondary_high_percent, both.find("secondary_ge_9A")},
          {&rules.secondary_percent, both.find("secondary_lt_9A")},
          {&rules.round_up_at_percent, table.find("round_up_only_for_pct")}})
        CHECK(row->number() == number(*value));
    CHECK(primary_limit(9, true, rules).percent == 125); // the bands as their names say
    CHECK(primary_limit(8.99, true, rules).percent == 167);
    CHECK(primary_limit(2, true, rules).percent == 167);
    CHECK(primary_limit(1.99, true, rules).percent == 300);
    CHECK(secondary_limit(9, rules).percent == 125);
    CHECK(secondary_limit(8.99, rules).percent == 167);
    return 13;
}

std::map<std::string, Judge> compared_tables() {
    const RuleBook& rules = starter_rules();
    const auto value = [](double row, const char* member) {
        return [=](const Node& table) {
            CHECK(row == number(*table.find(member)));
            return 1;
        };
    };
    const auto list = [](const std::vector<Rule>& rows) {
        return [&rows](const Node& table) {
            return ratings(amperes(rows), numbers(*table.find("values_A")));
        };
    };
    return {
        {"overcurrent/nec_240_6_A", list(rules.breaker_ratings_north_america)},
        {"overcurrent/nec_240_6_A_fuse_only", fuses_only},
        {"overcurrent/iec_60898_1", [](const Node& table) { return iec_ratings(table, 0); }},
        {"overcurrent/iec_60947_2_common_frames",
         [](const Node& table) { return iec_ratings(table, 14); }},
        {"overcurrent/iec_60269_fuse_links", list(rules.fuse_ratings_iec)},
        {"overcurrent/continuous_load",
         value(rules.continuous_factor_north_america->number(), "factor")},
        {"conductors/nec_310_16_copper", american_ampacities},
        {"conductors/nec_310_15_B_1_30C", american_ambient},
        {"conductors/iec_60204_1_ambient_factor_40C_base", iec_ambient},
        {"supply/sccr_default_kA", short_circuit_defaults},
        {"conductors/nec_240_4_D_max_ocpd_A", largest_devices},
        {"conductors/iec_60204_1_table_6", iec_ampacities},
        {"conductors/ul_508a_panel_wiring", panel_wiring},
        {"enclosure/ip_first", [](const Node& table) { return numerals(table, "IP", "0"); }},
        {"enclosure/ip_second", [](const Node& table) { return numerals(table, "IP5", ""); }},
        {"enclosure/nema_location", locations},
        {"enclosure/nema_protects", protections},
        {"signals/hart_min_loop_ohm", value(rules.heat.loop_resistance.number(), "value")},
        {"signals/loop_budget_mA",
         value(rules.find_signal("AI_MA")->amps->number() * 1000, "value")},
        {"supply/transformer_protection_nec_450_3_B_pct", transformer_percentages},
        {"supply/v24", value(rules.supply.volts.number(), "nominal")},
    };
}

const std::map<std::string, const char*> uncomputed_tables{
    {"overcurrent/iec_60898_trip_bands_xIn", "no tripping curve is judged"},
    {"overcurrent/iec_60898_conventional_xIn", "no tripping curve is judged"},
    {"overcurrent/nec_409_20", "motor feeders are no load of the control supply here"},
    {"overcurrent/nec_409_21_C", "motor feeders are no load of the control supply here"},
    {"overcurrent/nec_240_4_B_limit_A", "no device above the ampacity of its conductor"},
    {"conductors/iec_60364_5_52_B52_30C_pvc_3_loaded", "the 40 °C table is used"},
    {"conductors/iec_60364_5_52_B52_14", "the factors of the 40 °C table are used"},
    {"conductors/iec_60228_ohm_per_km_20C_plain_copper", "no voltage drop is computed"},
    {"conductors/nec_ch9_t8_stranded_uncoated_75C", "no voltage drop is computed"},
    {"conductors/wire_outer_diameter_mm_practice", "duct rows hold wires of 2.6 mm"},
    {"enclosure/ip_satisfies_rule", "words; its cases are the check value IP1"},
    {"enclosure/ip_rule_conf", "words"},
    {"enclosure/nema_to_ip_one_way", "marks of the two systems are never converted"},
    {"enclosure/choice_practice", "the client names the mark"},
    {"enclosure/choice_conf", "words"},
    {"mechanical/rail", "the rail's own height alone, a row of the table room"},
    {"mechanical/module_pitch_mm", "widths are data of parts"},
    {"mechanical/typical_device_mm_practice", "sizes are data of parts"},
    {"mechanical/terminal_width_mm", "widths are data of parts"},
    {"mechanical/terminal_extra_mm", "sizes are data of parts; see the check value ME1"},
    {"mechanical/terminal_rated_A_iec_60947_7_1", "ratings are data of parts"},
    {"mechanical/duct_width_mm", "see the tests of the starter rules"},
    {"mechanical/duct_height_mm", "see the tests of the starter rules"},
    {"mechanical/duct_conf", "words"},
    {"mechanical/fill_limits", "wireways and raceways are no ducts of a panel"},
    {"mechanical/nec_110_26_depth_m", "no working space is planned"},
    {"mechanical/control_cable_0_5mm2_od_mm", "see the tests of the small parts"},
    {"mechanical/instrument_cable_overall_screen_od_mm", "from memory, 20 % either way"},
    {"signals/ne43_mA", "no measured current is judged"},
    {"signals/loop_limit_design_mA", "no loop voltage is computed"},
    {"signals/iec_61131_2_di_24v", "thresholds of inputs are data of modules"},
    {"signals/iec_61131_2_do_dc_rated_A", "currents of outputs are data of modules"},
    {"signals/relay", "life of contacts is not estimated"},
    {"signals/pilot_duty", "contact ratings are data of parts"},
    {"signals/pt100", "no temperature is measured"},
    {"signals/tc_mV_at_100C_ref_0C", "no temperature is measured"},
    {"signals/io_link", "cable data of the field"},
    {"signals/serial_memory", "cable data of the field"},
    {"signals/di_filter_max_hz", "filters are data of modules"},
    {"signals/compatibility", "what a module may carry stands in its own data"},
    {"signals/compatibility_conf", "words"},
    {"supply/selv_pelv", "no protection by low voltage is judged"},
    {"supply/nec_class2", "no class 2 circuit is claimed"},
    {"supply/electronic_protection", "data of parts"},
    {"supply/control_transformer", "its formula is the check value TR1; sizes are data of parts"},
    {"supply/nec_409_110_marking", "words of the rating plate"},
    {"supply/nec_409_110_conf", "words"},
    {"supply/sccr_rule", "words"},
};

} // namespace

TEST_CASE("every table of the electrical facts is compared or listed with its reason") {
    auto compared = compared_tables();
    compared.merge(tables_of_wiring());
    int values = 0;
    std::size_t met = 0, listed = 0;
    for (const char* section :
         {"overcurrent", "conductors", "enclosure", "mechanical", "signals", "supply"})
        for (const Member& table : tables().find(section)->members) {
            const std::string key = std::string(section) + "/" + table.key;
            CAPTURE(key);
            const auto judge = compared.find(key);
            CHECK((judge != compared.end()) != uncomputed_tables.contains(key));
            if (judge == compared.end()) {
                ++listed;
                continue;
            }
            const int judged = judge->second(table.value);
            CHECK(judged > 0);
            values += judged;
            ++met;
        }
    std::cout << "electrical tables: " << values << " values of " << met << " tables compared, "
              << listed << " tables listed with a reason\n";
    CHECK(met == compared.size());
    CHECK(listed == uncomputed_tables.size());
    CHECK(values >= 300);
}
