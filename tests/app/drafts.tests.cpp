#include "app/drafts.h"

#include <catch2/catch.hpp>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <thread>

#include "app/recent_files.h"
#include "app/session.h"
#include "tests/app/scratch_folder.h"

using namespace backplate;
using namespace std::chrono_literals;

namespace {

namespace fs = std::filesystem;

DraftKeeper::Tree titled(const std::string& title) {
    Node request = blank_request();
    request.member("job") = Node::make_object();
    request.find("job")->member("title") = Node::make_text(title);
    return std::make_shared<const Node>(std::move(request));
}

/// Waits at most ten seconds, far more than a file needs.
bool reaches(const std::atomic<std::uint64_t>& stamp, std::uint64_t wanted) {
    for (int i = 0; i < 10'000 && stamp != wanted; ++i) std::this_thread::sleep_for(1ms);
    return stamp == wanted;
}

struct Kept {
    std::atomic<std::uint64_t> stamp{0};
    std::atomic<bool> faulty{false};
    DraftKeeper::Kept call() {
        return [this](std::uint64_t now, const std::string& fault) {
            if (!fault.empty()) faulty = true;
            stamp = now;
        };
    }
};

} // namespace

TEST_CASE("the newest state of a request is there once it is acknowledged") {
    const ScratchFolder folder;
    Kept kept;
    DraftKeeper keeper(folder.file("drafts"), kept.call());
    keeper.keep(titled("one"), "", 1);
    keeper.keep(titled("two"), "bid.json", 2, {"spare", "terms/margin"});
    REQUIRE(reaches(kept.stamp, 2));
    CHECK_FALSE(kept.faulty);
    CHECK(left_drafts(folder.file("drafts")).empty()); // it belongs to the keeper
    keeper.leave();
    const auto left = left_drafts(folder.file("drafts"));
    REQUIRE(left.size() == 1);
    CHECK(left[0].title() == "two");
    CHECK(left[0].file == "bid.json");
    CHECK(left[0].request == *titled("two"));
    CHECK(left[0].confirmed == std::set<std::string>{"spare", "terms/margin"});
}

TEST_CASE("a draft ends when its file holds everything, and when it is adopted and saved") {
    const ScratchFolder folder;
    Kept kept;
    {
        DraftKeeper keeper(folder.file("drafts"), kept.call());
        keeper.keep(titled("one"), "", 1);
    } // writes what waits
    const auto left = left_drafts(folder.file("drafts"));
    REQUIRE(left.size() == 1);
    DraftKeeper next(folder.file("drafts"), kept.call());
    REQUIRE(next.adopt(left[0].path));
    CHECK(left_drafts(folder.file("drafts")).empty());
    next.keep(nullptr, "", 7);
    REQUIRE(reaches(kept.stamp, 7));
    next.leave();
    CHECK(left_drafts(folder.file("drafts")).empty());
    CHECK(fs::is_empty(folder.file("drafts")));
}

TEST_CASE("a file that is no draft is left alone") {
    const ScratchFolder folder;
    fs::create_directories(folder.file("drafts"));
    std::ofstream(folder.file("drafts") + "/note.json") << "{ \"format\": \"something/1\" }";
    CHECK(left_drafts(folder.file("drafts")).empty());
    CHECK(fs::exists(folder.file("drafts") + "/note.json"));
}

TEST_CASE("a folder that cannot be made is said and loses nothing else") {
    const ScratchFolder folder;
    std::ofstream(folder.name() + "/drafts") << "in the way";
    Kept kept;
    DraftKeeper keeper(folder.file("drafts"), kept.call());
    keeper.keep(titled("one"), "", 3);
    REQUIRE(reaches(kept.stamp, 3));
    CHECK(kept.faulty);
}

TEST_CASE("recent files are nine, the newest first, and only those that are there") {
    const ScratchFolder folder;
    const std::string list = folder.name() + "/recent";
    for (int i = 0; i < 12; ++i) {
        const std::string file = folder.name() + "/" + std::to_string(i) + ".json";
        std::ofstream(file) << "{}";
        remember_file(list, file);
    }
    remember_file(list, folder.name() + "/5.json");
    fs::remove(folder.name() + "/11.json");
    const auto files = recent_files(list);
    REQUIRE(files.size() == 8);
    CHECK(files[0].ends_with("/5.json"));
    CHECK(files[1].ends_with("/10.json"));
    CHECK(recent_files("").empty());
}
