#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "app/stored_data.h"
#include "catalog/library/check_library.h"
#include "pricing/book/part_fields.h"
#include "tests/app/command_line/ran.h"

using namespace backplate;
using Json = nlohmann::json;

namespace {

Ran find(const Desk& desk, const PartQuery& query) {
    return run(desk.scratch, [&] { return run_parts_find(query, desk.common); });
}
Ran show(const Desk& desk, const std::vector<std::string>& parts) {
    return run(desk.scratch, [&] { return run_parts_show(parts, desk.common); });
}
Ran show_rules(const Desk& desk, const std::string& name) {
    return run(desk.scratch, [&] { return run_rules_show(name, desk.common); });
}
Ran make_template(const Desk& desk, const TemplateArguments& arguments) {
    return run(desk.scratch, [&] { return run_parts_template(arguments, desk.common); });
}

PartQuery texts(std::vector<std::string> words) {
    PartQuery query;
    query.texts = std::move(words);
    return query;
}

struct StarterDesk : Desk {
    StarterDesk() { common.library = ":starter:"; }
};

} // namespace

TEST_CASE("parts are found by words and conditions, all of which hold") {
    StarterDesk desk;
    desk.common.json = true;
    const auto keys = [&](const PartQuery& query) {
        std::vector<std::string> names;
        const auto said = Json::parse(find(desk, query).out);
        for (const auto& part : said.at("parts")) names.push_back(part.at("part"));
        return names;
    };
    CHECK(keys({}).size() == starter().parts.size());
    const auto found = keys({{"INPUT", "16"}, "module", "compact", "DI", "Velmora", "current"});
    CHECK(std::ranges::find(found, "VC-202") != found.end());
    CHECK(std::ranges::is_sorted(found));
    CHECK(keys(texts({"vc-202"})) == std::vector<std::string>{"VC-202"});
    CHECK(keys(texts({"vc-202", "no such words"})).empty());
    CHECK(find(desk, texts({"no such words"})).status == done);
    std::size_t relays = 0;
    for (const Part& part : starter().parts)
        relays += std::ranges::any_of(part.groups, [](const ChannelGroup& group) {
            return std::ranges::count(group.signals, std::string("DO_RELAY")) > 0;
        });
    PartQuery relay;
    relay.signal = "DO_RELAY";
    CHECK(keys(relay).size() == relays);
    CHECK(relays > 0);
}

TEST_CASE("what is found is told with price, state and demo data") {
    const StarterDesk desk;
    const auto ran = find(desk, texts({"vc-202"}));
    CHECK_THAT(ran.out, Catch::Contains("net EUR") && Catch::Contains("97.81") &&
                            Catch::Contains("(demo data)") && Catch::Contains("1 of "));
    // 132.00 less 22 % less 5 % = 97.812
}

TEST_CASE("a word that no part can have is refused with the nearest") {
    const StarterDesk desk;
    const struct {
        PartQuery query;
        const char* words;
    } rows[] = {
        {{{}, "modul", "", "", "", ""}, "'modul' is no kind of part; nearest: module"},
        {{{}, "", "compct", "", "", ""}, "nearest: compact"},
        {{{}, "", "", "DJ", "", ""}, "'DJ' is no signal; nearest: DI"},
        {{{}, "", "", "", "Velmara", ""}, "nearest: Velmora"},
        {{{}, "", "", "", "", "zzzzzzzz"}, "expected one of current, phasing_out, discontinued"},
    };
    for (const auto& row : rows) {
        const auto ran = find(desk, row.query);
        CHECK(ran.status == bad_input);
        CHECK_THAT(ran.out, Catch::Contains(row.words));
    }
    CHECK_THAT(show(desk, {"VC-2O2"}).out, Catch::Contains("nearest: VC-20"));
    CHECK(show(desk, {"VC-2O2"}).status == bad_input);
}

TEST_CASE("a part is shown in full with what it needs and what needs it") {
    StarterDesk desk;
    const auto page = show(desk, {"VC-202", "VC-C20"}).out;
    for (const char* words : {"VC-202 (demo data)", "132.00 EUR", "97.8120 EUR per piece", "45 mm",
                              "1 x VC-C20", "days old", "VC-C20 (demo data)", "1 x VC-202"})
        CHECK_THAT(page, Catch::Contains(words));
    desk.common.json = true;
    const auto said = Json::parse(show(desk, {"VC-202"}).out).at("parts").at(0);
    CHECK(said.at("fields").size() == part_fields().size());
    CHECK(said.at("needs").at(0) == Json{{"part", "VC-C20"}, {"quantity", 1}, {"in_book", true}});
    CHECK(said.at("demo_data") == true);
    CHECK(said.at("net") == "97.8120");
    CHECK(said.at("faults").empty());
    CHECK(said.at("price_age_days").is_number_integer());
}

TEST_CASE("a part that lacks something says so on its page") {
    const Desk desk;
    const auto file = desk.write("p.csv", "part,kind,description,successor,accessory\n"
                                          "ZZ-1,terminal,Clip,ZZ-9,ZZ-8*2\n");
    REQUIRE(desk.parts("import", file).status == done);
    const auto page = show(desk, {"ZZ-1"}).out;
    for (const char* words : {"has no width: no room can be found for it", "no price",
                              "2 x ZZ-8 (not in the price book)", "its successor is not in"})
        CHECK_THAT(page, Catch::Contains(words));
    CHECK_THAT(page, !Catch::Contains("demo data"));
    CHECK_THAT(page, !Catch::Contains("cutout_factor"));
}

TEST_CASE("rules are shown as tables, as one table and as one row") {
    StarterDesk desk;
    for (const char* words : {"hours", "rates", "labour norms"})
        CHECK_THAT(show_rules(desk, "").out, Catch::Contains(words));
    CHECK_THAT(show_rules(desk, "rates").out,
               Catch::Contains("shop: 52.00 per h (from 0 to 10000) - building work") &&
                   Catch::Contains("issue 1"));
    const auto row = show_rules(desk, "rates/shop").out;
    for (const char* words : {"rates/shop", "52.00", "per h", "minimum", "10000", "source",
                              "confidence", "issue", "building work"})
        CHECK_THAT(row, Catch::Contains(words));
    desk.common.json = true;
    const auto tables = Json::parse(show_rules(desk, "").out).at("tables");
    CHECK(tables.size() == rule_schema().size());
    for (const auto& table : tables) {
        CAPTURE(table);
        const auto rows = Json::parse(show_rules(desk, table.at("table")).out).at("rows");
        CHECK(rows.size() == table.at("rows").get<std::size_t>());
    }
    const auto said = Json::parse(show_rules(desk, "rates/shop").out);
    CHECK(said.at("value") == "52.00");
    CHECK(said.at("issue") == 1);
    CHECK(said.at("low").is_null());
}

TEST_CASE("a table or row that is none is refused with the nearest") {
    const StarterDesk desk;
    CHECK_THAT(show_rules(desk, "rate").out,
               Catch::Contains("'rate' is no rule table; nearest: rat"));
    CHECK_THAT(show_rules(desk, "rates/shopp").out,
               Catch::Contains("'shopp' is no row of the table rates; nearest: shop"));
    CHECK(show_rules(desk, "rates/shopp").status == bad_input);
}

TEST_CASE("a library is backed up by command") {
    Desk desk;
    CHECK(desk.library("backup", desk.scratch.file("copy")).status == outside_failed);
    CHECK_FALSE(std::filesystem::exists(desk.scratch.library())); // a backup makes no library
    make_starter(desk.scratch.library());
    CHECK_THAT(desk.library("backup", desk.scratch.file("copy")).out,
               Catch::Contains("backup of " + desk.scratch.library()));
    CHECK(check_library(desk.scratch.file("copy")).empty());
    CHECK(desk.library("backup", desk.scratch.library()).status == bad_input);
    desk.common.json = true;
    const auto said = Json::parse(desk.library("backup", desk.scratch.file("copy")).out);
    CHECK(said.at("bytes") == std::filesystem::file_size(desk.scratch.file("copy")));
    desk.common.library = ":starter:";
    CHECK(desk.library("backup", desk.scratch.file("copy")).status == bad_input);
}

TEST_CASE("the template is written and can be imported as it is") {
    Desk desk;
    const auto file = desk.scratch.file("own.csv");
    CHECK(make_template(desk, {file, "Kilnrow"}).status == done);
    CHECK_THAT(desk.parts("import", file).out, Catch::Contains("14 new"));
    CHECK_THAT(desk.parts("check").out, Catch::Contains("OWN-CTL has no width"));
    CHECK_THAT(make_template(desk, {}).out, Catch::Contains("part,kind,description"));
    CHECK(make_template(desk, {"", "two\nlines"}).status == bad_input);
    desk.common.json = true;
    CHECK(Json::parse(make_template(desk, {}).out).at("columns").size() == part_fields().size());
}
