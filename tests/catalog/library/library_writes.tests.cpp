// Killed, or out of disk, at every single write, sync and removal of a file.
#include <sys/wait.h>

#include <iostream>

#include <catch2/catch.hpp>

#include "catalog/library/check_library.h"
#include "tests/catalog/library/failing_files.h"
#include "tests/catalog/library/job_samples.h"
#include "tests/catalog/library/scratch.h"

using namespace backplate;

namespace {

/// What stands in a library.
struct Standing {
    LibraryContent content;
    std::vector<Job> jobs;
    bool operator==(const Standing& other) const {
        return content.parts == other.content.parts &&
               content.prices_issue == other.content.prices_issue &&
               content.rules.tables == other.content.rules.tables && jobs == other.jobs;
    }
};

Standing standing(const std::string& path) {
    const Library library(path);
    Standing now{library.read(), {}};
    for (const JobHead& head : library.jobs()) now.jobs.push_back(library.job(head.number));
    return now;
}

using Act = std::function<void(Library&)>;

void save(Library& library) { library.add_job(sample_job("saved")); }
void save_again(Library& library) {
    library.change_job(1, [](Job& job) {
        save_work(job, sample_revision(std::string(9000, 'x')), {}, stamp_on(2));
    });
}
void send_first(Library& library) { library.change_job(1, send_sample); }
void import_prices(Library& library) {
    auto parts = library.read().parts;
    for (Part& part : parts) part.description += " changed";
    Part fresh = parts.at(0);
    for (int i = 0; i < 60; ++i) {
        fresh.key = "N" + std::to_string(100 + i);
        parts.push_back(fresh);
    }
    library.put_parts(parts, OtherRows::end, {"estimator", "new prices"});
}

/// Runs the acts in a process of its own that fails at the n-th act on a file. Returns how many
/// were acknowledged, and the exit status.
std::pair<std::size_t, int> run_failing(const std::string& path, const std::vector<Act>& acts,
                                        FileFault fault, int at) {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    if (child == 0) {
        FailingFiles::install(fault, at);
        try {
            Library library(path);
            for (const Act& act : acts) {
                act(library);
                if (::write(ends[1], "x", 1) != 1) ::_exit(1);
            }
            ::_exit(0);
        } catch (const OutsideFault&) {
            ::_exit(3);
        } catch (...) {
            ::_exit(1);
        }
    }
    ::close(ends[1]);
    std::size_t acknowledged = 0;
    char said = 0;
    while (::read(ends[0], &said, 1) == 1) ++acknowledged;
    ::close(ends[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    return {acknowledged, WIFEXITED(status) ? WEXITSTATUS(status) : 255};
}

/// Sweeps the act on a file that fails until nothing does. Returns how many were judged.
int sweep(const std::string& seed, const std::vector<Act>& acts, FileFault fault, int expected) {
    const Scratch scratch;
    const auto fresh = [&] {
        std::filesystem::remove_all(scratch.path);
        std::filesystem::create_directories(scratch.path);
        write_file(scratch.library(), seed);
    };
    fresh();
    const auto faults = check_library(scratch.library()); // its few rules make no rule book
    std::vector<Standing> stages{standing(scratch.library())};
    for (const Act& act : acts) {
        Library library(scratch.library());
        act(library);
        stages.push_back(standing(scratch.library()));
    }
    for (int at = 1;; ++at) {
        fresh();
        const auto [acknowledged, status] = run_failing(scratch.library(), acts, fault, at);
        if (status == 0) return at - 1;
        CAPTURE(at, acknowledged);
        REQUIRE(status == expected);
        const Standing now = standing(scratch.library());
        const bool last = now == stages[acknowledged];
        const bool next = acknowledged < acts.size() && now == stages[acknowledged + 1];
        REQUIRE((last || next));
        REQUIRE(check_library(scratch.library()) == faults);
        Library library(scratch.library());
        REQUIRE(library.add_job(sample_job("afterwards")).title == "afterwards");
    }
}

/// The library of schema 1, so that the first change migrates it as well.
std::string first_schema() {
    return read_file(source_tree + "/tests/libraries/schema_001/library.backplate");
}

const std::vector<std::vector<Act>> changes{
    {save, import_prices}, {save, save_again, send_first}, {import_prices, save}};

} // namespace

TEST_CASE("killed at any write, a change happened or did not, and what was acknowledged stands") {
    int judged = 0;
    for (const auto& acts : changes)
        judged += sweep(first_schema(), acts, FileFault::killed, FailingFiles::killed_status);
    std::cout << judged << " killings judged\n";
    CHECK(judged > 100);
}

TEST_CASE("a disk that is full from any write on leaves the last change that was acknowledged") {
    int judged = 0;
    for (const auto& acts : changes) judged += sweep(first_schema(), acts, FileFault::refused, 3);
    std::cout << judged << " full disks judged\n";
    CHECK(judged > 100);
}
