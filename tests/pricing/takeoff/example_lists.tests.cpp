#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <set>
#include <tuple>

#include <nlohmann/json.hpp>

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
constexpr std::array judged_of_reading{"encoding", "delimiter", "header_row"};

void judge(const json& expected, const json& got, const char* key) {
    INFO(key);
    CHECK(got.at(key) == expected.at(key));
}

} // namespace

TEST_CASE("example lists come out as a person counted them") {
    int cases = 0;
    for (const auto& folder : fs::directory_iterator(lists)) {
        if (!folder.is_directory()) continue;
        const json expected = json::parse(read_file((folder.path() / "expected.json").string()));
        const std::string name = expected.at("file");
        const auto list = tests::read_list((folder.path() / name).string());
        const json got = json::parse(takeoff_json(
            list.takeoff, {name, list.read.reading.encoding, list.read.reading.delimiter}));
        INFO(folder.path().filename().string());
        for (const char* key : judged) judge(expected, got, key);
        for (const char* key : judged_of_reading)
            if (expected.at("read").contains(key)) judge(expected.at("read"), got.at("read"), key);
        ++cases;
    }
    CHECK(cases == 9);
}

TEST_CASE("every row of an example list is accounted for") {
    for (const auto& folder : fs::directory_iterator(lists)) {
        if (!folder.is_directory()) continue;
        const json expected = json::parse(read_file((folder.path() / "expected.json").string()));
        const auto list = tests::read_list((folder.path() / expected.at("file")).string());
        const Takeoff& takeoff = list.takeoff;
        std::size_t rows =
            static_cast<std::size_t>(takeoff.rows_counted) + takeoff.refuse_rows.size();
        for (const auto& [why, count] : takeoff.rows_not_counted)
            rows += static_cast<std::size_t>(count);
        rows += static_cast<std::size_t>(std::ranges::count_if(
            takeoff.ask, [](const auto& question) { return question.proposed_panel.empty(); }));
        INFO(folder.path().filename().string());
        CHECK(rows == list.read.sheet.rows.size());
    }
}
