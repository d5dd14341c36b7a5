#include "reports/workbook/workbook.h"

#include <clocale>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <limits>
#include <set>
#include <sstream>
#include <string>

#include <sys/resource.h>
#include <unistd.h>

#include <catch2/catch.hpp>

#include "pricing/values/faults.h"
#include "tests/reports/workbook/rich_estimate.h"

using namespace backplate;
namespace fs = std::filesystem;

namespace {

/// A folder of its own that goes with the test.
class Scratch {
public:
    Scratch() {
        std::string name = (fs::temp_directory_path() / "workbook-XXXXXX").string();
        folder_ = mkdtemp(name.data());
    }
    ~Scratch() { fs::remove_all(folder_); }
    std::string path(const char* name) const { return (folder_ / name).string(); }
    std::size_t files() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
    }

private:
    fs::path folder_;
};

std::string bytes_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream bytes;
    bytes << file.rdbuf();
    return bytes.str();
}

void put(const std::string& path, const char* text) { std::ofstream(path) << text; }

/// No file of this process may become longer than `bytes`: a full disk.
class FullDisk {
public:
    explicit FullDisk(rlim_t bytes) {
        std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit tight{bytes, before_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &tight);
    }
    ~FullDisk() { setrlimit(RLIMIT_FSIZE, &before_); }

private:
    rlimit before_{};
};

} // namespace

TEST_CASE("equal estimates give equal workbooks") {
    const Scratch scratch;
    write_workbook(rich_estimate(), rich_rules(), scratch.path("one.xlsx"));
    write_workbook(rich_estimate(), rich_rules(), scratch.path("two.xlsx"));
    const std::string one = bytes_of(scratch.path("one.xlsx"));
    CHECK(one.size() > 10000);
    CHECK(one.starts_with("PK"));
    CHECK(one == bytes_of(scratch.path("two.xlsx")));
    CHECK(scratch.files() == 2);
}

TEST_CASE("another estimate gives another workbook") {
    const Scratch scratch;
    Estimate estimate = rich_estimate();
    write_workbook(estimate, rich_rules(), scratch.path("one.xlsx"));
    estimate.bill[3].note = "other";
    write_workbook(estimate, rich_rules(), scratch.path("two.xlsx"));
    CHECK(bytes_of(scratch.path("one.xlsx")) != bytes_of(scratch.path("two.xlsx")));
}

TEST_CASE("further points stand in the workbook where they were priced") {
    const Scratch scratch;
    FoundSteps steps;
    PriceSteps inputs;
    inputs.box = "CP1";
    inputs.signal = "DI";
    inputs.looked_at = 4;
    inputs.point_price = Money::whole(12);
    steps.signals = {inputs};
    write_workbook(rich_estimate(), rich_rules(), scratch.path("none.xlsx"));
    write_workbook(rich_estimate(), rich_rules(), scratch.path("free.xlsx"), steps);
    steps.signals[0].steps.push_back({3, Money::whole(100), Money::whole(130), {}, {}, ""});
    write_workbook(rich_estimate(), rich_rules(), scratch.path("step.xlsx"), steps);
    steps.signals[0].steps.push_back({4, Money::whole(130), {}, {}, {}, "room: no plate"});
    write_workbook(rich_estimate(), rich_rules(), scratch.path("end.xlsx"), steps);
    std::set<std::string> different;
    for (const char* name : {"none.xlsx", "free.xlsx", "step.xlsx", "end.xlsx"})
        different.insert(bytes_of(scratch.path(name)));
    CHECK(different.size() == 4);
}

TEST_CASE("the locale of the process does not reach the workbook") {
    const Scratch scratch;
    write_workbook(rich_estimate(), rich_rules(), scratch.path("plain.xlsx"));
    REQUIRE(std::setlocale(LC_ALL, "de_DE.UTF-8") != nullptr);
    const std::string mark = std::localeconv()->decimal_point;
    write_workbook(rich_estimate(), rich_rules(), scratch.path("comma.xlsx"));
    const std::string after = std::localeconv()->decimal_point;
    std::setlocale(LC_ALL, "C");
    CHECK(mark == ",");
    CHECK(after == ",");
    CHECK(bytes_of(scratch.path("plain.xlsx")) == bytes_of(scratch.path("comma.xlsx")));
}

TEST_CASE("an old workbook is replaced") {
    const Scratch scratch;
    put(scratch.path("quote.xlsx"), "old");
    write_workbook(unbuildable_estimate(), rich_rules(), scratch.path("quote.xlsx"));
    CHECK(bytes_of(scratch.path("quote.xlsx")).starts_with("PK"));
    CHECK(scratch.files() == 1);
}

TEST_CASE("a place that cannot be written is an outside fault and nothing is left") {
    const Scratch scratch;
    CHECK_THROWS_AS(
        write_workbook(rich_estimate(), rich_rules(), scratch.path("missing") + "/quote.xlsx"),
        OutsideFault);
    fs::create_directories(scratch.path("quote.xlsx") + "/full");
    CHECK_THROWS_AS(write_workbook(rich_estimate(), rich_rules(), scratch.path("quote.xlsx")),
                    OutsideFault);
    CHECK(scratch.files() == 1);
}

TEST_CASE("a full disk leaves the old workbook as it was") {
    const Scratch scratch;
    put(scratch.path("quote.xlsx"), "old");
    const rlim_t bytes = GENERATE(0, 1000, 20000);
    {
        const FullDisk full(bytes);
        CHECK_THROWS_AS(write_workbook(rich_estimate(), rich_rules(), scratch.path("quote.xlsx")),
                        OutsideFault);
    }
    CHECK(bytes_of(scratch.path("quote.xlsx")) == "old");
    CHECK(scratch.files() == 1);
}

TEST_CASE("a figure that is not finite is refused and nothing is left") {
    const Scratch scratch;
    Estimate estimate = rich_estimate();
    estimate.boxes[0].heat.top->value = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(write_workbook(estimate, rich_rules(), scratch.path("quote.xlsx")),
                    std::logic_error);
    CHECK(scratch.files() == 0);
}
