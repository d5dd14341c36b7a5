#include "app/documents.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include "app/session.h"
#include "catalog/cells/table.h"
#include "pricing/price_job.h"
#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"
#include "tests/app/scratch_folder.h"

using namespace backplate;

namespace {

namespace fs = std::filesystem;

Estimate small_estimate(const Inputs& inputs) {
    Node request = blank_request();
    Node point = Node::make_object();
    point.member("signal") = Node::make_text("DI");
    point.member("count") = Node::make_number("8");
    request.find("boxes")->items[0].find("points")->items.push_back(point);
    request.member("job") = Node::make_object();
    request.find("job")->member("title") = Node::make_text("Weir: east/west");
    const auto checked = check_request(request, *inputs.rules, Date::of(2026, 11, 24));
    Work work;
    return price_job(*checked.request, *inputs.prices, *inputs.rules, work);
}

} // namespace

TEST_CASE("a title becomes a name that every file system takes") {
    CHECK(file_stem("Weir: east/west") == "Weir eastwest");
    CHECK(file_stem(" ../..") == "untitled job");
    CHECK(file_stem("") == "untitled job");
    CHECK(file_stem(std::string(200, 'x')).size() == 120);
}

TEST_CASE("nothing that is there is overwritten") {
    const ScratchFolder folder;
    const std::string first = free_path(folder.name(), "a", ".xlsx");
    std::ofstream(first) << "mine";
    fs::create_symlink("nowhere", folder.name() + "/a 2.xlsx");
    CHECK(free_path(folder.name(), "a", ".xlsx") == folder.name() + "/a 3.xlsx");
    CHECK(read_file(first) == "mine");
}

TEST_CASE("the documents that are wanted are written, each under a name of its own") {
    const ScratchFolder folder;
    const Inputs inputs = load_inputs(":starter:");
    const Estimate estimate = small_estimate(inputs);
    Work work;
    const DocumentWish wish{folder.name(), true, true, true, true, true};
    CHECK(write_documents(estimate, inputs, wish, work).size() == 4);
    const auto again = write_documents(estimate, inputs, wish, work);
    REQUIRE(again.size() == 4);
    CHECK(again[0].path == folder.name() + "/Weir eastwest workbook 2.xlsx");
    CHECK(folder.files() == 8);
}

TEST_CASE("a stop keeps the client's edition back and nothing is written") {
    const ScratchFolder folder;
    const Inputs inputs = load_inputs(":starter:");
    Estimate estimate = small_estimate(inputs);
    estimate.findings.push_back({"NO_PRICE", Severity::stop, "/boxes/0", {}});
    Work work;
    CHECK_THROWS_AS(
        write_documents(estimate, inputs, {folder.name(), true, true, false, false, false}, work),
        BadInput);
    CHECK(folder.files() == 0);
    CHECK_THROWS_AS(write_documents(estimate, inputs,
                                    {folder.name() + "/none", true, false, false, false, false},
                                    work),
                    BadInput);
}
