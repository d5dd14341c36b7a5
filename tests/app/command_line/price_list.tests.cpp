#include <catch2/catch.hpp>

#include <nlohmann/json.hpp>

#include "app/inputs.h"
#include "app/request_input.h"
#include "app/stored_data.h"
#include "pricing/price_job.h"
#include "pricing/values/faults.h"
#include "tests/app/command_line/ran.h"

using namespace backplate;
using Json = nlohmann::json;

namespace {

const std::string demo = source_tree + "/demo/price_lists/pelwick_klemmen";

Ran import_list(const Desk& desk, PriceListArguments arguments) {
    return run(desk.scratch, [&] { return run_price_list(arguments, desk.common); });
}

PriceListArguments demo_list(bool preview) {
    PriceListArguments arguments;
    arguments.list = demo + ".csv";
    arguments.map = demo + "_map.json";
    arguments.preview = preview;
    return arguments;
}

/// What the finding says of the network switch in a job of 2026-11-24; empty: it is not raised.
std::string said_of_switch(const Desk& desk, const std::string& code) {
    const Inputs inputs = load_inputs(desk.scratch.library());
    const RequestText given{"request",
                            R"({"format": "backplate-request/1",
        "job": {"date": "2026-11-24", "valid_days": 30}, "boxes": [{
        "points": [{"signal": "DI", "count": 8}], "equipment": [{"part": "PN-S08"}]}]})",
                            {},
                            {}};
    Work work;
    const Estimate estimate =
        price_job(checked_request(given, inputs), *inputs.prices, *inputs.rules, work);
    std::string said;
    for (const Finding& finding : estimate.findings)
        if (finding.code == code)
            for (const auto& param : finding.params) said += param.second + ";";
    return said;
}

void import_switch(const Desk& desk, const std::string& cells) {
    PriceListArguments list;
    list.list = desk.write("list.csv", "Article No,List Price,Price Date,Valid Until\n" + cells);
    list.supplier = list.accept_suspicious = true;
    REQUIRE(import_list(desk, list).status == done);
}

std::optional<Money> list_of(const Desk& desk, const char* part) {
    return load_inputs(desk.scratch.library()).prices->find(part)->list;
}

} // namespace

TEST_CASE("a preview writes nothing, the import makes one change set that an undo takes back") {
    Desk desk;
    make_starter(desk.scratch.library());
    const auto parts = Library(desk.scratch.library()).read().parts;
    const auto before = read_file(desk.scratch.library());
    const auto preview = import_list(desk, demo_list(true));
    CHECK(preview.status == done);
    CHECK_THAT(preview.out, Catch::Contains("Preview: ") && Catch::Contains("demo data"));
    CHECK(read_file(desk.scratch.library()) == before);
    const auto put = import_list(desk, demo_list(false));
    CHECK_THAT(put.out, Catch::Contains("parts changed; change set 2"));
    // 60.76 for 100 pieces; the key of KT-B05 stands with a blank in the list.
    CHECK(list_of(desk, "KT-B02") == Money::parse("0.6076"));
    CHECK(list_of(desk, "KT-B05") == Money::parse("1.3869"));
    CHECK(load_inputs(desk.scratch.library()).prices->find("KT-B02")->valid_until ==
          Date::of(2027, 6, 30));
    CHECK_FALSE(load_inputs(desk.scratch.library()).prices->find("KT-NEU1"));
    CHECK(desk.library("changes").status == done);
    CHECK(desk.library("undo", "2").status == done);
    CHECK(Library(desk.scratch.library()).read().parts == parts);
}

TEST_CASE("suspicious lines of a list are left out unless they are accepted") {
    Desk desk;
    make_starter(desk.scratch.library());
    const auto held = list_of(desk, "KT-025");
    CHECK_THAT(import_list(desk, demo_list(false)).out,
               Catch::Contains("looks like the price of a pack of 50") &&
                   Catch::Contains("suspicious lines are left out"));
    CHECK(list_of(desk, "KT-025") == held);
    auto accepting = demo_list(false);
    accepting.accept_suspicious = true;
    CHECK(import_list(desk, accepting).status == done);
    CHECK(list_of(desk, "KT-025") == Money::parse("47.00"));
}

TEST_CASE("the headings alone give the same as the map, which can be written") {
    Desk desk;
    desk.common.json = true;
    PriceListArguments guessed = demo_list(true);
    guessed.map.clear();
    guessed.write_map = desk.scratch.file("map.json");
    const auto by_headings = Json::parse(import_list(desk, guessed).out);
    const auto by_map = Json::parse(import_list(desk, demo_list(true)).out);
    CHECK(by_headings.at("lines").size() == by_map.at("lines").size());
    CHECK(by_headings.at("sums").at("dearer") == by_map.at("sums").at("dearer"));
    CHECK(by_headings.at("columns") == by_map.at("columns"));
    CHECK(by_headings.at("preview") == true);
    CHECK(by_headings.at("change_set").is_null());
    guessed.map = guessed.write_map;
    CHECK(Json::parse(import_list(desk, guessed).out).at("sums") == by_headings.at("sums"));
}

TEST_CASE("every encoding and delimiter gives the same prices") {
    const auto* text = "Article No;List Price;Gerät\nVC-101;1.301,50;ä\nVC-102;420,00;b\n";
    std::string utf16 = "\xFF\xFE", commas = "\xEF\xBB\xBF";
    for (const char* c = "Article No\tList Price\nVC-101\t1.301,50\nVC-102\t420,00\n"; *c; ++c)
        utf16 += {*c, '\0'};
    commas += "Article No,List Price\nVC-101,\"1,301.50\"\nVC-102,420.00\n";
    std::string code_page = text;
    code_page.replace(code_page.find("ä"), 2, "\xE4");
    code_page.replace(code_page.find("ä"), 2, "\xE4");
    const std::string bytes = GENERATE_COPY(std::string(text), utf16, commas, code_page);
    Desk desk;
    PriceListArguments list;
    list.list = desk.write("list.csv", bytes);
    list.supplier = list.accept_suspicious = true;
    CHECK(import_list(desk, list).status == done);
    CHECK(list_of(desk, "VC-101") == Money::parse("1301.50"));
    CHECK(list_of(desk, "VC-102") == Money::parse("420.00"));
}

// PRICE_OLD after 180 days; VALIDITY where the offer outlives the price: the table of findings.
TEST_CASE("prices and days of a list reach the findings of the next estimate") {
    Desk desk;
    make_starter(desk.scratch.library());
    Part bare = *load_inputs(desk.scratch.library()).prices->find("PN-S08");
    bare.list.reset();
    bare.price_date = bare.valid_until = std::nullopt;
    Library(desk.scratch.library()).put_parts({bare}, OtherRows::stay, {"estimator", "no price"});
    CHECK(said_of_switch(desk, "NO_PRICE") == "Network switch 8 ports;");
    import_switch(desk, "PN-S08,210.00,2026-02-20,2027-12-31\n");
    CHECK(said_of_switch(desk, "NO_PRICE").empty());
    CHECK(said_of_switch(desk, "PRICE_OLD") == "PN-S08;277;"); // 20 February to 24 November
    CHECK(said_of_switch(desk, "VALIDITY").empty());
    import_switch(desk, "PN-S08,212.00,2026-11-20,2026-12-01\n");
    CHECK(said_of_switch(desk, "PRICE_OLD").empty());
    CHECK(said_of_switch(desk, "VALIDITY") == "2026-12-24;PN-S08;2026-12-01;");
    import_switch(desk, "PN-S08,on request,2026-11-21,\n");
    CHECK(list_of(desk, "PN-S08") == Money::whole(212)); // never taken without a price
    CHECK(said_of_switch(desk, "NO_PRICE").empty());
}

TEST_CASE("change sets as JSON, and an undo that is refused") {
    Desk desk;
    desk.common.json = true;
    import_list(desk, demo_list(false));
    const auto list = Json::parse(desk.library("changes").out);
    REQUIRE(list.size() == 2);
    CHECK(list.at(1).at("number") == 2);
    CHECK(list.at(1).at("parts").at("changed").get<int>() > 30);
    CHECK_THAT(list.at(1).at("reason").get<std::string>(), Catch::Contains("price list"));
    CHECK(desk.library("undo", "1").status == not_as_asked);
    CHECK(desk.library("undo", "9").status == bad_input);
    CHECK(desk.library("undo", "x").status == bad_input);
    const auto undone = Json::parse(desk.library("undo", "2").out);
    CHECK(undone.at("undone") == 2);
    CHECK(undone.at("change_set") == 3);
    CHECK(undone.at("parts").at("changed") == list.at(1).at("parts").at("changed"));
    CHECK(desk.library("undo", "2").status == not_as_asked);
}
