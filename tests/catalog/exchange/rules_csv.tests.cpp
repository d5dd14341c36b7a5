#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include "catalog/cells/table.h"
#include "catalog/exchange/rules_csv.h"
#include "pricing/values/faults.h"

using namespace backplate;
namespace fs = std::filesystem;

namespace {

const std::string starter = std::string(BACKPLATE_SOURCE_TREE) + "/catalog/starter/rules";

/// A directory of its own for each test, gone with it.
class Folder {
public:
    Folder() {
        std::string pattern = (fs::temp_directory_path() / "rules-XXXXXX").string();
        path_ = mkdtemp(pattern.data());
    }
    ~Folder() { fs::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    std::string path(const std::string& name = "") const { return (path_ / name).string(); }
    std::string write(const std::string& name, const std::string& bytes) const {
        std::ofstream(path(name), std::ios::binary) << bytes;
        return path(name);
    }

private:
    fs::path path_;
};

std::string refusal(const RuleTables& tables, const std::string& path) {
    try {
        with_rules_file(tables, path);
    } catch (const BadInput& fault) {
        return fault.what();
    }
    return "was accepted";
}

struct FileCase {
    const char *file, *bytes, *message;
};

// Own wording; the ranges are those of the starter rows.
const FileCase wrong_files[] = {
    {"supply.csv", "row,value\nutilisation,1.8\n",
     "supply.csv, line 2, row utilisation, column value: '1.8', expected a number from 0.3 to 1"},
    {"supply.csv", "row,value\nutilisation,\"0,8\"\n",
     "supply.csv, line 2, row utilisation, column value: '0,8', expected a number from 0.3 to 1"},
    {"supply.csv", "row,value\nvolts,about 24\n",
     "supply.csv, line 2, row volts, column value: 'about 24', expected a number from 12 to 60"},
    {"supply.csv", "row,value,low\nvolts,24,30\n",
     "supply.csv, line 2, row volts, column low: '30', expected a number up to 24, the value"},
    {"supply.csv", "row,value,high\nvolts,24,61\n",
     "supply.csv, line 2, row volts, column high: '61', expected a number from 12 to 60"},
    {"supply.csv", "row,value,minimum\nvolts,24,x\n",
     "supply.csv, line 2, row volts, column minimum: 'x', expected a number"},
    {"rules.csv", "table,row,value\nsupply,utilisation,1.8\n",
     "rules.csv, line 2, row supply/utilisation, column value: '1.8', expected a number from 0.3 "
     "to 1"},
    {"rules.csv", "table,row,value\nsuply,volts,24\n",
     "rules.csv, line 2: 'suply' is no rule table, nearest: supply"},
    {"rules.csv", "table,row,value\nhours,new_norm,5\n",
     "rules.csv, line 2, row hours/new_norm, column unit: empty, expected a text"},
    {"rules.csv", "table,row,value\nsignals,DI,24\n",
     "rules.csv, line 2, row signals/DI, column value: '24', expected nothing"},
    {"rules.csv", "table,row,value,remark\nsupply,volts,24,a\n",
     "rules.csv, column remark: is no column of the table"},
    {"rates.csv", "row,value\nshop,52\nshop,53\n",
     "rates.csv, line 3, row shop, column row: stands twice in the table"},
    {"rates.csv", "row,value\nshop,52,\n", "rates.csv, line 2: 3 cells, expected 2"},
    {"rates.csv", "row,value\n,52\n", "rates.csv, line 2, column row: empty, expected a key"},
    {"rates.csv", "row,value,value\nshop,52,53\n", "rates.csv, column value: stands twice"},
    {"rates.csv", "row,prize\nshop,52\n", "rates.csv, column prize: is no column of the table"},
    {"rates.csv", "value\n52\n", "rates.csv: has no column row"},
    {"rates.csv", "", "rates.csv: is empty"},
    {"rates.csv", "row,value,active\nshop,52,perhaps\n",
     "rates.csv, line 2, row shop, column active: 'perhaps', expected yes or no"},
    {"rates.csv", "row;value\nshop;52\n", "rates.csv"},
    {"suply.csv", "row,value\nvolts,24\n", "suply.csv: 'suply' is no rule table, nearest: supply"},
    {"currencies.csv", "row,digits\nEUR,2.5\n",
     "currencies.csv, line 2, row EUR, column digits: '2.5', expected a whole number from 0 to 4"},
    {"signals.csv", "row,power\nDI,inputs\n",
     "signals.csv, line 2, row DI, column power: 'inputs', expected one of input loop_in"},
    {"findings.csv", "row,severity\nHEAT,grave\n",
     "findings.csv, line 2, row HEAT, column severity: 'grave', expected one of note warning stop"},
    {"defaults.csv", "row,assumption\nspare,maybe\n",
     "defaults.csv, line 2, row spare, column assumption: 'maybe', expected yes or no"},
};

} // namespace

TEST_CASE("exported rules read back as they were") {
    const RuleTables tables = read_rules_dir(starter);
    const Folder folder;
    write_rules_dir(tables, folder.path("new/rules"));
    const RuleTables again = read_rules_dir(folder.path("new/rules"));
    CHECK(again.tables == tables.tables);
    CHECK(tables.tables.size() == rule_schema().size());
}

TEST_CASE("exported starter files are the starter files") {
    const Folder folder;
    write_rules_dir(read_rules_dir(starter), folder.path());
    int judged = 0;
    for (const auto& entry : fs::directory_iterator(starter)) {
        CAPTURE(entry.path().filename());
        CHECK(read_file(entry.path().string()) ==
              read_file(folder.path(entry.path().filename().string())));
        ++judged;
    }
    CHECK(judged >= 27);
}

TEST_CASE("cells with commas, quotes, line breaks and blanks survive the exchange") {
    RuleTables tables;
    for (const TableSpec& spec : rule_schema()) tables.table(spec.name);
    RuleRow row{"odd, \"key\"", {" a,b ", "\"", "1", "2.50", "", "", "two\nlines"}, "s", "c", "n",
                false};
    tables.table("ratios").rows.push_back(row);
    const Folder folder;
    write_rules_dir(tables, folder.path());
    CHECK(read_rules_dir(folder.path()).tables == tables.tables);
}

TEST_CASE("a wrong rule file is refused with file, row, column and expectation") {
    const RuleTables tables = read_rules_dir(starter);
    const Folder folder;
    for (const FileCase& each : wrong_files) {
        CAPTURE(each.bytes);
        CHECK_THAT(refusal(tables, folder.write(each.file, each.bytes)),
                   Catch::StartsWith(each.message));
    }
    CHECK(std::size(wrong_files) >= 25);
}

TEST_CASE("one table: rows not in the file end, columns not in it stay, active becomes yes") {
    const RuleTables before = read_rules_dir(starter);
    const Folder folder;
    const RuleTables after = with_rules_file(
        before, folder.write("hours.csv", "value,row\n12,mount_module\n\n4.5,land_wire\n"));
    const std::vector<RuleRow>& rows = after.find("hours")->rows;
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].key == "mount_module");
    CHECK(rows[0].cells[0] == "12");
    CHECK(rows[0].active);
    CHECK(rows[0].source == "trade-practice 2.1");
    CHECK(*after.find("rates") == *before.find("rates"));
    CHECK(after.issue == before.issue);
}

TEST_CASE("a file may say that a row is not active") {
    const RuleTables before = read_rules_dir(starter);
    const Folder folder;
    const RuleTables after = with_rules_file(
        before, folder.write("rates.csv", "row,value,active\nshop,52,no\ntest,64,\n"));
    CHECK_FALSE(after.find("rates")->rows[0].active);
    CHECK(after.find("rates")->rows[1].active);
}

TEST_CASE("a directory that holds no rules is refused, not read as empty tables") {
    const Folder folder;
    CHECK_THROWS_AS(read_rules_dir(folder.path()), BadInput);
    CHECK_THROWS_AS(read_rules_dir(folder.path("none")), BadInput);
    const std::string file = folder.write("suply.csv", "row,value\nvolts,24\n");
    CHECK_THROWS_AS(read_rules_dir(file), BadInput);
    CHECK_THROWS_AS(read_rules_dir(folder.path()), BadInput);
}
