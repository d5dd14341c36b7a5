#include <catch2/catch.hpp>

#include "pricing/book/rule_book.h"
#include "tests/pricing/book/sample_rules.h"

using namespace backplate;

namespace {

struct BookCase {
    const char *table, *row, *column, *cell, *message;
};

const BookCase wrong_books[] = {
    {"supply", "volts", "value", "", "empty, expected a number"},
    {"terminals", "DI contact", "value", "two", "'two', expected a number"},
    {"hours", "mount_module", "unit", "days", "'days', expected h, min or % first"},
    {"hours", "mount_module", "activity", "moving", "'moving', expected a word of the table words"},
    {"hours", "mount_module", "driver", "modul", "'modul', expected something that can be counted"},
    {"hours", "mount_module", "driver", "point DX", "'point DX', expected something"},
    {"hours", "mount_module", "driver", "hours: dancing", "'hours: dancing', expected something"},
    {"hours", "mount_module", "condition", "by hand", "'by hand', expected always, or terms"},
    {"hours", "mount_module", "condition", "practice!iec", "'practice!iec', expected always"},
    {"hours", "mount_module", "condition", "practice=", "'practice=', expected always"},
    {"hours", "mount_module", "condition", "scope.softwar=included", "'scope.softwar=included', "},
    {"hours", "mount_module", "condition", "approvals>0 and weather=fine", "'approvals>0 and "},
    {"wiring", "incoming_conductor", "value", "9 mm²", "'9 mm²', expected a size of the table"},
    {"defaults", "commercial.margin_percent", "default_iec", "rule:price_policy/profit",
     "'rule:price_policy/profit', expected an active row"},
    {"defaults", "commercial.margin_percent", "assumption", "yes", "'', expected a row of the"},
};

const std::pair<const char*, const char*> needed_rows[] = {
    {"supply", "volts"},
    {"supply", "power_factor"},
    {"supply_loss", "l1"},
    {"heat", "top_factor"},
    {"room", "duct_and_clearance_mm"},
    {"terminals", "incoming"},
    {"wires", "length"},
    {"protection", "distribution_channels"},
    {"wiring", "incoming_conductor"},
    {"rates", "shop"},
    {"delivery", "test_weeks"},
    {"price_policy", "overhead"},
    {"price_policy", "margin"},
    {"risk", "labour_correlation"},
    {"signals", "DI"},
    {"breaker_ratings", "na 15"},
    {"conductors", "iec 1.5"},
    {"defaults", "commercial.margin_percent"},
    {"hours", "mount_module"},
    {"words", "a"},
};

} // namespace

TEST_CASE("the least set of rows makes a book") {
    const RuleBookResult result = make_rule_book(sample::rules());
    REQUIRE(result.faults.empty());
    const RuleBook& book = *result.book;
    CHECK(book.supply.utilisation.id == "supply/utilisation");
    CHECK(book.supply.utilisation.text() == "0.8");
    CHECK(book.losses.at("supply_loss").l1.number() == 0.025);
    CHECK_FALSE(book.room.device_row_mm);
    CHECK_FALSE(book.supply.altitude_percent_per_km);
    CHECK(book.texts.at("price_policy/currency") == "EUR");
    CHECK(book.texts.at("price_policy/margin") == "20");
    CHECK(book.find_signal("DI")->power == "input");
    CHECK(book.find_signal("DO") == nullptr);
    CHECK(book.smallest_incoming_north_america.empty());
    CHECK_FALSE(book.norms_confirmed);
    CHECK(book.digits_of("XYZ") == 2);
}

TEST_CASE("every view holds the row of its name") {
    const RuleBookResult result = make_rule_book(sample::rules());
    REQUIRE(result.book);
    const RuleBook& book = *result.book;
    const std::pair<const Rule*, const char*> views[] = {
        {&book.supply.volts, "supply/volts"},
        {&book.supply.knee_c, "supply/knee_c"},
        {&book.supply.slope_percent_per_k, "supply/slope_percent_per_k"},
        {&book.supply.altitude_knee_m, "supply/altitude_knee_m"},
        {&book.supply.power_factor, "supply/power_factor"},
        {&book.losses.at("supply_loss").l0, "supply_loss/l0"},
        {&book.losses.at("supply_loss").l2, "supply_loss/l2"},
        {&book.heat.loop_resistance, "heat/loop_resistance"},
        {&book.heat.loop_current, "heat/loop_current"},
        {&book.heat.top_factor, "heat/top_factor"},
        {&book.heat.reserve_k, "heat/reserve_k"},
        {&book.heat.circulation_factor, "heat/circulation_factor"},
        {&book.heat.surface_u, "heat/surface_u"},
        {&book.room.side_each_mm, "room/duct_and_clearance_mm"},
        {&book.shop_hours_per_week, "delivery/shop_hours_per_week"},
        {&book.test_weeks, "delivery/test_weeks"},
        {&book.labour_correlation, "risk/labour_correlation"},
        {&book.policy.freight_percent, "price_policy/freight_percent"},
        {&book.policy.overhead, "price_policy/overhead"},
        {&book.policy.round_up_to, "price_policy/round_up_to"},
        {&book.policy.sundries_percent, "price_policy/sundries_percent"},
        {&book.policy.material_low_percent, "price_policy/material_low_percent"},
        {&book.policy.material_high_percent, "price_policy/material_high_percent"}};
    for (const auto& [rule, id] : views) {
        CHECK(rule->id == id);
        CHECK(rule->source == "test");
    }
}

TEST_CASE("a row that the engine needs is missed by name, whether absent or not active") {
    for (const auto& [table, key] : needed_rows) {
        CAPTURE(table, key);
        RuleTables tables = sample::rules();
        sample::row_of(tables, table, key).active = false;
        const RuleBookResult result = make_rule_book(tables);
        CHECK(result.book == nullptr);
        CHECK_FALSE(result.faults.empty());
        std::erase_if(tables.table(table).rows, [&](const auto& row) { return row.key == key; });
        CHECK(make_rule_book(tables).faults.size() == result.faults.size());
    }
    CHECK(std::size(needed_rows) >= 20);
}

TEST_CASE("what cannot be counted, paid or found is a fault of the book") {
    for (const BookCase& each : wrong_books) {
        CAPTURE(each.table, each.row, each.column, each.cell);
        RuleTables tables = sample::rules();
        sample::set(tables, each.table, each.row, each.column, each.cell);
        const RuleBookResult result = make_rule_book(tables);
        CHECK(result.book == nullptr);
        REQUIRE(result.faults.size() == 1);
        CHECK(result.faults[0].table == each.table);
        CHECK(result.faults[0].row == each.row);
        CHECK_THAT(result.faults[0].text, Catch::StartsWith(each.message));
    }
}

TEST_CASE("a way that takes a part says how many, one that takes none need not") {
    for (const bool part : {true, false}) {
        RuleTables tables = sample::rules();
        sample::add(tables, "interfaces", "relay DI",
                    {{"via", "relay"},
                     {"signal", "DI"},
                     {"module_signal", "DI"},
                     {"part_kind", part ? "interface" : ""}});
        const RuleBookResult result = make_rule_book(tables);
        CHECK((result.book == nullptr) == part);
        REQUIRE(result.faults.size() == (part ? 1 : 0));
        if (part) CHECK(result.faults[0].column == "parts_per_channel");
    }
}

TEST_CASE("a wrong cell forbids a book before any view is made") {
    RuleTables tables = sample::rules();
    sample::set(tables, "hours", "mount_module", "count", "often");
    const RuleBookResult result = make_rule_book(tables);
    CHECK(result.book == nullptr);
    REQUIRE(result.faults.size() == 1);
    CHECK(result.faults[0].column == "count");
}

TEST_CASE("units of a norm decide by their first word") {
    const std::pair<const char*, double> units[] = {
        {"h per point", 1}, {"h", 1}, {"min", 1.0 / 60}, {"% of all other hours", 0.01}};
    for (const auto& [unit, hours] : units) {
        RuleTables tables = sample::rules();
        sample::set(tables, "hours", "mount_module", "unit", unit);
        sample::set(tables, "hours", "mount_module", "count", "once");
        const RuleBookResult result = make_rule_book(tables);
        REQUIRE(result.book);
        CHECK(result.book->labour.at(0).hours_per_unit == hours);
    }
}

TEST_CASE("a condition joins terms over the scope, the practice and approvals") {
    for (const char* condition :
         {"always", "practice=iec", "practice!=iec", "approvals>0 and practice=north_america"}) {
        RuleTables tables = sample::rules();
        sample::set(tables, "hours", "mount_module", "condition", condition);
        CHECK(make_rule_book(tables).faults.empty());
    }
}

TEST_CASE("losses of several kinds of supply stand side by side") {
    RuleTables tables = sample::rules();
    sample::add_values(tables, "supply_loss",
                       {{"small l0", "0.02"}, {"small l1", "0.03"}, {"small l2", "0.04"}});
    const RuleBookResult result = make_rule_book(tables);
    REQUIRE(result.book);
    CHECK(result.book->losses.size() == 2);
    CHECK(result.book->losses.at("small").l2.id == "supply_loss/small l2");
    tables.table("supply_loss").rows.pop_back();
    CHECK(make_rule_book(tables).faults.at(0).row == "small l2");
}

TEST_CASE("room rows of one mechanism: bands, ducts by width, sharings with their gap") {
    RuleTables tables = sample::rules();
    sample::add_values(tables, "room",
                       {{"supply_row_mm", "225"},
                        {"supply_side_mm", "10"},
                        {"one_row_if_it_fits", "1"},
                        {"sharing A|BC|D", "0"},
                        {"sharing_gap_mm", "20"}});
    sample::add(tables, "room", "duct 60", {{"value", "60"}, {"high", "339"}});
    sample::add(tables, "room", "duct 40", {{"value", "40"}, {"high", "226"}});
    const RuleBookResult result = make_rule_book(tables);
    REQUIRE(result.book);
    const RoomRules& room = result.book->room;
    CHECK(room.supply.row_mm->number() == 225);
    CHECK(room.supply.side_mm->number() == 10);
    CHECK(room.one_row_if_it_fits);
    REQUIRE(room.duct_widths.size() == 2);
    CHECK(room.duct_widths[0].number() == 40);
    CHECK(room.duct_widths[1].high_number() == 339);
    REQUIRE(room.sharings.size() == 1);
    CHECK(room.sharings[0].key == "A|BC|D");
    CHECK(room.sharings[0].gap_mm == 20);
    sample::add_values(tables, "room", {{"sharing A|BD", "0"}});
    CHECK(make_rule_book(tables).faults.size() == 1);
}
