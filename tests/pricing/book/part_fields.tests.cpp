#include "pricing/book/part_fields.h"

#include <catch2/catch.hpp>
#include <set>

using namespace backplate;

namespace {

struct CellCase {
    const char *field, *cell, *written;
};

const CellCase cells[] = {
    {"part", "MOD-DI16", "MOD-DI16"},
    {"kind", "main_switch", "main_switch"},
    {"list", "168.00", "168.00"},
    {"list", "0.1234", "0.1234"},
    {"list", "3", "3.00"},
    {"discount_percent", "30/10", "30/10"},
    {"discount_percent", "12.50", "12.5"},
    {"unit", "metre", "metre"},
    {"price_date", "2026-10-01", "2026-10-01"},
    {"lead_days", "28", "28"},
    {"lead_days", "0", "0"},
    {"pack", "50", "50"},
    {"width_mm", "6.2", "6.2"},
    {"width_mm", "0", "0"},
    {"own_a", "0.060", "0.06"},
    {"signal", "DI", ""},
    {"groups", "DI*8@0.004", ""},
    {"groups", "DO*8@0.5/4", "DO*8@0.5/4"},
    {"groups", "DI|DO*8@0.5+one_signal", "DI|DO*8@0.5+one_signal"},
    {"groups", "DI*4+if(PNP only)", "DI*4+if(PNP only)"},
    {"pair", "yes", "yes"},
    {"capacity_wh", "3.4", "3.4"},
    {"tight_factor", "0.75", "0.75"},
    {"bus_ma", "1500", "1500"},
    {"accessory", "CON-16*2;END-1", "CON-16*2;END-1"},
    {"accessory", "CON-16*1", "CON-16"},
    {"min_c", "-25", "-25"},
    {"protection", "IP66/IP67", "IP66/IP67"},
    {"protection", "IPX5", "IPX5"},
    {"protection", "IP69", "IP69"},
    {"type_mark", "Type 4X", "Type 4X"},
    {"demo", "yes", "yes"},
    {"demo", "no", ""},
};

const std::pair<const char*, const char*> wrong_cells[] = {{"part", "A*B"},
                                                           {"part", " A"},
                                                           {"kind", "gadget"},
                                                           {"list", "-1"},
                                                           {"list", "1.23456"},
                                                           {"list", "1e3"},
                                                           {"list", "1,50"},
                                                           {"discount_percent", "101"},
                                                           {"discount_percent", "30/"},
                                                           {"discount_percent", "30-10"},
                                                           {"unit", "box"},
                                                           {"price_date", "2026-02-30"},
                                                           {"price_date", "01.10.2026"},
                                                           {"lead_days", "1.5"},
                                                           {"lead_days", "-1"},
                                                           {"pack", "0"},
                                                           {"width_mm", "5000.1"},
                                                           {"own_a", "inf"},
                                                           {"own_a", "nan"},
                                                           {"channels", "0"},
                                                           {"signal", "DI;DO"},
                                                           {"accessory", ";A"},
                                                           {"accessory", "A*0"},
                                                           {"accessory", "A*1*1"},
                                                           {"max_c", "121"},
                                                           {"phases", "4"},
                                                           {"protection", "IP7"},
                                                           {"protection", "IP74"},
                                                           {"protection", "IP66/IP67/IP69"},
                                                           {"type_mark", "Type 7"},
                                                           {"material", "wood"},
                                                           {"stage", "window"},
                                                           {"practice", "IEC"},
                                                           {"demo", "1"},
                                                           {"part", "# remark"},
                                                           {"description", "two\nlines"}};

} // namespace

TEST_CASE("every field has its own key, both ways, and an expectation") {
    std::set<std::string_view> keys;
    for (const auto& field : part_fields()) {
        CAPTURE(field.key);
        CHECK(keys.insert(field.key).second);
        CHECK(find_part_field(field.key) == &field);
        CHECK(field.read != nullptr);
        CHECK(field.write != nullptr);
        CHECK_FALSE(field.explanation.empty());
        CHECK_FALSE(expectation(field).empty());
        Part part;
        CHECK_FALSE(field.read(part, "\x01 no such cell"));
    }
    CHECK(keys.size() == 69);
    CHECK(find_part_field("colour") == nullptr);
    CHECK(part_kinds().size() == 26);
}

TEST_CASE("cells are read and written") {
    for (const auto& row : cells) {
        Part part;
        CAPTURE(row.field, row.cell);
        REQUIRE(find_part_field(row.field)->read(part, row.cell));
        if (std::string_view(row.field) != "signal")
            CHECK(field_text(part, row.field) == row.written);
    }
}

TEST_CASE("one plain group stands in three columns, anything else in one") {
    Part part;
    REQUIRE(find_part_field("groups")->read(part, "DI*16@0.005"));
    CHECK(field_text(part, "signal") == "DI");
    CHECK(field_text(part, "channels") == "16");
    CHECK(field_text(part, "channel_a") == "0.005");
    CHECK(field_text(part, "groups").empty());
    for (const char* text :
         {"DI*16@0.005/1", "AI_MA|AI_V*4", "TC*4+isolated", "AI_MA*4+hart", "DI*8;DO*8"}) {
        REQUIRE(find_part_field("groups")->read(part, text));
        CHECK(field_text(part, "signal").empty());
        CHECK(field_text(part, "channels").empty());
        CHECK(field_text(part, "groups") == text);
    }
}

TEST_CASE("a type mark in the column of the IP mark is kept as what it is") {
    Part part;
    REQUIRE(find_part_field("protection")->read(part, "Type 12"));
    CHECK(part.ip_mark.empty());
    CHECK(part.type_mark == "Type 12");
}

TEST_CASE("cells beyond their range or form are refused and change nothing") {
    for (const auto& [key, cell] : wrong_cells) {
        Part part;
        CAPTURE(key, cell);
        CHECK_FALSE(find_part_field(key)->read(part, cell));
        if (std::string_view(key) != "demo") CHECK(part == Part{});
    }
}

TEST_CASE("expectations say range, form or words") {
    CHECK(expectation(*find_part_field("width_mm")) == "a number from 0 to 5000 mm");
    CHECK(expectation(*find_part_field("pack")) == "a whole number from 1 to 100000 pieces");
    CHECK(expectation(*find_part_field("mounting")) == "one of wall, floor");
    CHECK(expectation(*find_part_field("price_date")) == "a date such as 2026-11-24");
}

TEST_CASE("a field is needed by some kinds only") {
    CHECK(needed_by(*find_part_field("own_a"), "module"));
    CHECK_FALSE(needed_by(*find_part_field("own_a"), "rail"));
    CHECK(needed_by(*find_part_field("description"), "rail"));
    CHECK_FALSE(needed_by(*find_part_field("maker"), "module"));
    CHECK_FALSE(needed_by(*find_part_field("rated_a"), "in"));
}

TEST_CASE("the kind gives what is left out") {
    const auto filled = [](Part part) {
        fill_part_defaults(part);
        return part;
    };
    Part part;
    part.kind = "module";
    CHECK(filled(part).platform == "compact");
    part.platform = "slice";
    CHECK(filled(part).platform == "slice");
    part = {};
    part.kind = "enclosure";
    CHECK(filled(part).mounting == "wall");
    CHECK(filled(part).platform.empty());
    part = {};
    part.kind = "cooling";
    CHECK(filled(part).stage == "circulation_fan");
    part.flow_m3h = 55;
    CHECK(filled(part).stage == "filter_fan");
    part.cooling_w = 300;
    CHECK(filled(part).stage == "cooling_unit");
    part.stage = "air_exchanger";
    CHECK(filled(part).stage == "air_exchanger");
}

TEST_CASE("an allowance takes one place and draws its own power at 24 V, rounded up") {
    Part part;
    part.kind = "module";
    part.own_w = 2.5;
    fill_part_defaults(part);
    CHECK(part.places == 0);
    CHECK_FALSE(part.own_a);
    part.allowance = true;
    fill_part_defaults(part);
    CHECK(part.places == 1);
    CHECK(part.own_a == 0.1042); // 2.5 W / 24 V = 0.104166... A
    part.own_a = 0.2;
    fill_part_defaults(part);
    CHECK(part.own_a == 0.2);
    Part rail;
    rail.kind = "rail";
    rail.own_w = 1;
    rail.allowance = true;
    fill_part_defaults(rail);
    CHECK_FALSE(rail.own_a);
}

TEST_CASE("an allowance needs a price and no figures that only an offer states") {
    Part part;
    part.kind = "supply";
    for (const char* key : {"height_mm", "depth_mm", "max_c"}) {
        CAPTURE(key);
        part.allowance = false;
        CHECK(needed_by(*find_part_field(key), part));
        part.allowance = true;
        CHECK_FALSE(needed_by(*find_part_field(key), part));
    }
    for (const char* key : {"description", "width_mm", "rated_a", "efficiency_row", "list"})
        CHECK(needed_by(*find_part_field(key), part));
    part.allowance = false;
    CHECK_FALSE(needed_by(*find_part_field("list"), part));
}
