#include <catch2/catch.hpp>

#include <cstdlib>

#include <nlohmann/json.hpp>

#include "app/inputs.h"
#include "app/stored_data.h"
#include "pricing/values/faults.h"
#include "tests/app/command_line/ran.h"

using namespace backplate;

namespace {

const std::string one_part = "part,kind,description,width_mm,list\n"
                             "ZZ-1,accessory,Clip,8,1.25\n";

} // namespace

TEST_CASE("a file of parts adds and replaces, a folder is the whole price book") {
    const Desk desk;
    const auto count = std::to_string(starter().parts.size());
    const auto file = desk.write("one.csv", one_part);
    CHECK(desk.parts("import", file).out ==
          "1 new, 0 changed, 0 ended, 0 unchanged parts; change set 2\n");
    CHECK(desk.parts("import", file).out ==
          "0 new, 0 changed, 0 ended, 1 unchanged parts; nothing to change\n");
    desk.write("one.csv", "part,kind,description,width_mm,list\nZZ-1,accessory,Clip,8,1.30\n");
    CHECK(desk.parts("import", file).out ==
          "0 new, 1 changed, 0 ended, 0 unchanged parts; change set 3\n");
    CHECK(load_inputs(desk.scratch.library()).prices->find("ZZ-1")->list == Money::parse("1.30"));
    std::filesystem::create_directory(desk.scratch.file("book"));
    desk.write("book/one.csv", one_part);
    CHECK(desk.parts("import", desk.scratch.file("book")).out ==
          "0 new, 1 changed, " + count + " ended, 0 unchanged parts; change set 4\n");
    CHECK(load_inputs(desk.scratch.library()).prices->parts().size() == 1);
    CHECK(load_inputs(desk.scratch.library()).prices->issue() == 4);
}

TEST_CASE("a file of rules replaces the tables it names, flat files too") {
    const Desk desk;
    const auto rates = starter().rules.find("rates")->rows.size();
    const auto flat = desk.write("some.csv", "table,row,value\nrisk,labour_correlation,0.25\n"
                                             "risk,draws,5000\n");
    CHECK(desk.rules("import", flat).out.find("0 new, 2 changed, 0 ended") == 0);
    const auto inputs = load_inputs(desk.scratch.library());
    CHECK(inputs.rule_tables.find("risk")->rows.at(0).cells.at(0) == "0.25");
    CHECK(inputs.rule_tables.find("rates")->rows.size() == rates);
    CHECK(inputs.rules->issue == 2);
    CHECK(desk.rules("export", desk.scratch.file("rules")).status == done);
    CHECK(desk.rules("import", desk.scratch.file("rules")).out.find("nothing to change") !=
          std::string::npos);
}

TEST_CASE("bad input leaves the bytes of the library") {
    const Desk desk;
    make_starter(desk.scratch.library());
    const auto before = read_file(desk.scratch.library());
    std::filesystem::create_directory(desk.scratch.file("empty"));
    const struct {
        const char *command, *name, *text;
        int status;
        const char* words;
    } rows[] = {
        {"parts", "a.csv", "part,kind,width_mm\nZ,accessory,wide\n", bad_input, "line 2"},
        {"parts", "b.csv", "part,kind,colour\nZ,accessory,red\n", bad_input, "colour"},
        {"parts", "none.csv", nullptr, bad_input, "does not exist"},
        {"parts", "empty", nullptr, bad_input, "holds no .csv file"},
        {"rules", "rates.csv", "row,value\nshop,much\n", bad_input, "column value"},
        {"rules", "signals.csv", "row\n", bad_input, "faults, the first: table signals"},
        {"rules", "none.csv", nullptr, bad_input, "does not exist"},
        {"rules", "empty", nullptr, bad_input, "holds no CSV file"},
    };
    for (const auto& row : rows) {
        CAPTURE(row.command, row.name);
        if (row.text) desk.write(row.name, row.text);
        const auto path = desk.scratch.file(row.name);
        const bool parts = std::string(row.command) == "parts";
        const auto ran = parts ? desk.parts("import", path) : desk.rules("import", path);
        CHECK(ran.status == row.status);
        CHECK_THAT(ran.out, Catch::Contains(row.words));
        CHECK(read_file(desk.scratch.library()) == before);
    }
}

TEST_CASE("checks say what they found") {
    Desk desk;
    CHECK(desk.library("check").status == outside_failed);
    CHECK(desk.parts("check").status == done);
    CHECK(desk.rules("check").status == done);
    CHECK(desk.library("check").out == desk.scratch.library() + ": sound\n");
    const auto file = desk.write("one.csv", "part,kind,description\nZZ-1,terminal,Clip\n");
    CHECK(desk.parts("import", file).status == done);
    CHECK(desk.parts("check").status == not_as_asked);
    CHECK_THAT(desk.parts("check").out, Catch::Contains("ZZ-1 has no width: no room"));
    tamper(desk.scratch.library(), "UPDATE rule_rows SET cells = json_set(cells, '$.value', 'x') "
                                   "WHERE table_name = 'rates' AND key = 'shop'");
    CHECK(desk.rules("check").status == not_as_asked);
    CHECK_THAT(desk.rules("check").out, Catch::Contains("table rates, row shop, column value"));
    CHECK(desk.library("check").status == not_as_asked);
    CHECK_THROWS_WITH(load_inputs(desk.scratch.library()),
                      Catch::Contains("its rules cannot be used: table rates, row shop"));
    desk.common.json = true;
    const auto said = nlohmann::json::parse(desk.rules("check").out);
    CHECK(said.at("sound") == false);
    CHECK(said.at("faults").size() == 1);
}

TEST_CASE("JSON of imports and exports") {
    Desk desk;
    desk.common.json = true;
    const auto file = desk.write("one.csv", one_part);
    using Json = nlohmann::json;
    CHECK(Json::parse(desk.parts("import", file).out) ==
          Json{{"new", 1}, {"changed", 0}, {"ended", 0}, {"unchanged", 0}, {"change_set", 2}});
    CHECK(Json::parse(desk.parts("import", file).out).at("change_set").is_null());
    const auto exported = Json::parse(desk.parts("export", desk.scratch.file("p")).out);
    CHECK(exported.at("parts") == starter().parts.size() + 1);
    CHECK(exported.at("directory") == desk.scratch.file("p"));
}

TEST_CASE("the starter data are read and never written") {
    Desk desk;
    desk.common.library = ":starter:";
    const auto file = desk.write("one.csv", one_part);
    for (const auto& ran : {desk.parts("import", file), desk.rules("import", file)}) {
        CHECK(ran.status == bad_input);
        CHECK_THAT(ran.out, Catch::Contains("is read-only"));
    }
    CHECK(desk.library("check").status == bad_input);
    CHECK(desk.rules("export", desk.scratch.file("rules")).status == done);
    CHECK(read_rules_dir(desk.scratch.file("rules")).tables == starter().rules.tables);
    const auto inputs = load_inputs(":starter:");
    CHECK(inputs.prices->parts().size() == starter().parts.size());
    CHECK(inputs.prices->demo_data());
    CHECK(inputs.prices->issue() == 1);
    CHECK_FALSE(std::filesystem::exists(desk.scratch.library()));
}

TEST_CASE("the default library lies in the user's data folder and is made on first use") {
    const Scratch scratch;
    ::setenv("XDG_DATA_HOME", scratch.file("data").c_str(), 1);
    CHECK(default_library_path() == scratch.file("data/backplate/library.backplate"));
    CHECK(load_inputs("").prices->parts().size() == starter().parts.size());
    CHECK(std::filesystem::exists(default_library_path()));
    CHECK(ask(default_library_path(), "SELECT reason FROM change_sets") == "starter data");
    ::setenv("XDG_DATA_HOME", "relative", 1);
    ::setenv("HOME", scratch.file("home").c_str(), 1);
    CHECK(default_library_path() == scratch.file("home/.local/share/backplate/library.backplate"));
    ::unsetenv("XDG_DATA_HOME");
    ::unsetenv("HOME");
    CHECK_THROWS_AS(default_library_path(), OutsideFault);
}

TEST_CASE("the starter data come from where BACKPLATE_DATA says") {
    const Scratch scratch;
    ::setenv("BACKPLATE_DATA", scratch.path.c_str(), 1);
    CHECK_THROWS_AS(data_folders(), OutsideFault);
    std::filesystem::create_directories(scratch.file("rules"));
    std::filesystem::create_directories(scratch.file("prices"));
    CHECK(data_folders().rules == scratch.file("rules"));
    CHECK(data_folders().prices == scratch.file("prices"));
    ::unsetenv("BACKPLATE_DATA");
    CHECK(data_folders().rules != scratch.file("rules"));
}
