#include <catch2/catch.hpp>

#include <array>
#include <filesystem>

#include <nlohmann/json.hpp>

#include "catalog/cells/table.h"
#include "reports/takeoff_json.h"
#include "tests/pricing/takeoff/list_cases.h"

using namespace backplate;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

const fs::path lists = fs::path(BACKPLATE_SOURCE_TREE) / "tests/lists/takeoff";

/// Every key of an expected answer that is no label of the case.
constexpr std::array judged{"outcome",
                            "counts",
                            "panels",
                            "spare_rows",
                            "bus_rows",
                            "rows_counted",
                            "rows_not_counted",
                            "ask",
                            "refuse_rows",
                            "warn",
                            "file_warnings",
                            "counts_if_proposals_accepted",
                            "panels_if_proposals_accepted"};
void judge(const json& expected, const json& got, const char* key) {
    INFO(key);
    CHECK(got.at(key) == expected.at(key));
}

/// How the list was read; what is said of hostile files is no part of it.
void judge_reading(const json& expected, const json& got) {
    for (const auto& [key, value] : expected.at("read").items()) {
        if (key == "hostile") continue;
        INFO(key);
        CHECK(got.at("read").value(key, json()) == value);
    }
}

json read_as_json(const fs::path& path, const std::string& name) {
    try {
        const auto list = tests::read_list(path.string());
        if (!list.takeoff.holds_rows())
            throw RefusedList("nothing_found", "nothing below a heading");
        return json::parse(takeoff_json(list.takeoff, list.file.reading, {}));
    } catch (const RefusedList& refused) {
        return json::parse(refused_takeoff_json(name, refused.reason, refused.what()));
    }
}

} // namespace

TEST_CASE("example lists come out as a person counted them") {
    int cases = 0;
    for (const auto& folder : fs::directory_iterator(lists)) {
        if (!folder.is_directory()) continue;
        const json expected = json::parse(read_file((folder.path() / "expected.json").string()));
        const std::string name = expected.at("file");
        const json got = read_as_json(folder.path() / expected.value("stored_as", name), name);
        INFO(folder.path().filename().string());
        for (const char* key : judged) judge(expected, got, key);
        for (const char* key : {"reason", "totals_check"})
            if (expected.contains(key)) judge(expected, got, key);
        judge_reading(expected, got);
        ++cases;
    }
    CHECK(cases == 42);
}
