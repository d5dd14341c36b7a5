#include <catch2/catch.hpp>

#include "pricing/panel/cooling.h"
#include "pricing/panel/site_limits.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

struct Row {
    const char* offered;
    const char* asked;
    bool meets;
};

/// IEC 60529 clause 6, from memory (electrical-facts 3): water numerals 0 to 6 include the lower
/// ones; 7, 8 and 9 prove neither 5 nor 6 without a dual mark; X proves nothing.
constexpr Row ip_rows[] = {
    {"IP54", "IP54", true},       {"IP66", "IP54", true},       {"IP54", "IP55", false},
    {"IP65", "IP66", false},      {"IP44", "IP54", false},      {"IP55", "IP54", true},
    {"IP67", "IP65", false},      {"IP67", "IP66", false},      {"IP67", "IP64", true},
    {"IP67", "IP67", true},       {"IP66", "IP67", false},      {"IP66/IP67", "IP66", true},
    {"IP66/IP67", "IP67", true},  {"IP66/IP67", "IP65", true},  {"IP66/IP67", "IP66/IP67", true},
    {"IP66", "IP66/IP67", false}, {"IP67", "IP66/IP67", false}, {"IP69", "IP66", false},
    {"IP69", "IP65", false},      {"IP66/IP69", "IP66", true},  {"IP68", "IP66", false},
    {"IP6X", "IP54", false},      {"IPX6", "IP54", false},      {"IP6X", "IP5X", true},
    {"IP54", "IP5X", true},       {"IPX5", "IPX4", true},       {"", "IP20", false},
    {"IP20", "IP20", true},       {"IP66", "IP00", true},       {"IP2X", "IP20", true},
    {"IP2X", "IP21", false},      {"IP20", "IP2X", true},
};

/// NEMA 250 application matrix as reprinted, in part from memory (electrical-facts 3).
constexpr Row type_rows[] = {
    {"Type 12", "Type 12", true},  {"Type 12", "Type 1", true},   {"Type 12", "Type 3R", false},
    {"Type 12", "Type 4", false},  {"Type 4", "Type 12", true},   {"Type 4", "Type 3R", true},
    {"Type 4", "Type 4X", false},  {"Type 4X", "Type 4", true},   {"Type 4X", "Type 12", true},
    {"Type 4X", "Type 6P", false}, {"Type 6P", "Type 4X", true},  {"Type 6", "Type 4X", false},
    {"Type 13", "Type 12", true},  {"Type 12", "Type 13", false}, {"Type 4X", "Type 13", false},
    {"Type 1", "Type 12", false},  {"Type 3R", "Type 12", false}, {"Type 3S", "Type 3", true},
    {"Type 3", "Type 3S", false},  {"Type 1", "Type 1", true},
};

/// A type never shows an IP code to this product, an IP code never a type; no mark asked is met.
constexpr Row across[] = {
    {"", "", true},
    {"Type 1", "", true},
    {"IP20", "", true},
    {"Type 4X", "IP66", false},
    {"IP66", "Type 4", false},
    {"Type 12", "IP20", false},
    {"IP69", "Type 1", false},
    {"Type 13", "IP54", false},
};

template <std::size_t count> int judge(const Row (&rows)[count]) {
    int judged = 0;
    for (const Row& row : rows) {
        CAPTURE(row.offered, row.asked);
        CHECK(mark_meets(row.offered, row.asked, starter_rules()) == row.meets);
        ++judged;
    }
    return judged;
}

} // namespace

TEST_CASE("IP marks") { CHECK(judge(ip_rows) == 32); }

TEST_CASE("type marks") { CHECK(judge(type_rows) == 20); }

TEST_CASE("marks never meet across the systems") {
    CHECK(judge(across) == 8);
    Part part;
    part.ip_mark = "IP66";
    CHECK_FALSE(part_meets(part, "Type 12", starter_rules()));
    part.type_mark = "Type 12";
    CHECK(part_meets(part, "Type 12", starter_rules()));
    CHECK(part_meets(part, "IP54", starter_rules()));
    CHECK_FALSE(part_meets(part, "Type 4", starter_rules()));
}

TEST_CASE("the finished box has the lower mark of body and part in its wall") {
    const RuleBook& rules = starter_rules();
    Part body, fan;
    body.ip_mark = "IP66";
    body.type_mark = "Type 4X";
    fan.stage = "filter_fan";
    fan.ip_mark = "IP54";
    fan.type_mark = "Type 12";
    CHECK(finished_mark(body, nullptr, "IP54", rules) == "IP66");
    CHECK(finished_mark(body, &fan, "IP54", rules) == "IP54");
    CHECK(finished_mark(body, &fan, "Type 12", rules) == "Type 12");
    fan.ip_mark = "IP67"; // proves no jets, so neither covers the other
    CHECK(finished_mark(body, &fan, "IP54", rules) == "IP54");
    fan.ip_mark = "IP66/IP67";
    CHECK(finished_mark(body, &fan, "IP54", rules) == "IP66");
    fan.stage = "circulation_fan"; // stands inside
    fan.ip_mark = "";
    CHECK(finished_mark(body, &fan, "IP54", rules) == "IP66");
}

TEST_CASE("what dust and corrosion forbid") {
    // climate-and-supply 4: no filter fan in salt fog, corrosive gas, conductive dust; clean air
    // else. electrical-facts 3: corrosive places ask for stainless or glass-reinforced boxes.
    const RuleBook& rules = starter_rules();
    Site site;
    for (const char* dust : {"none", "normal", "heavy", "conductive"}) {
        site.dust = dust;
        const bool clean = site.dust == "none" || site.dust == "normal";
        CHECK(place_allows_stage(site, "filter_fan", rules) == clean);
        CHECK(place_allows_stage(site, "air_exchanger", rules));
        CHECK(place_allows_material(site, "painted_steel", rules));
    }
    site.dust = "normal";
    for (const char* corrosion : {"salt", "gas", "washdown"}) {
        site.corrosion = corrosion;
        CHECK(place_allows_stage(site, "filter_fan", rules) == (site.corrosion == "washdown"));
        CHECK_FALSE(place_allows_material(site, "painted_steel", rules));
        CHECK_FALSE(place_allows_material(site, "aluminium", rules));
        CHECK(place_allows_material(site, "stainless", rules));
        CHECK(place_allows_material(site, "glass_reinforced", rules));
    }
    CHECK(allowed_materials(site, rules) == "stainless, glass_reinforced");
    site.corrosion.clear();
    CHECK(allowed_materials(site, rules).empty());
}
