#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <thread>

#include <catch2/catch.hpp>

#include "catalog/library/check_library.h"
#include "tests/catalog/library/scratch.h"

using namespace backplate;

namespace {

using Milliseconds = std::chrono::milliseconds;

/// Many parts of one description, so that a mixture of two books shows.
std::vector<Part> book_of(const std::string& description) {
    const auto some = starter().parts;
    std::vector<Part> parts;
    for (int i = 0; i < 400; ++i) {
        parts.push_back(some[static_cast<std::size_t>(i) % some.size()]);
        parts.back().key = "P" + std::to_string(100000 + i);
        parts.back().description = description;
    }
    return parts;
}

/// Imports the two books in turns until it is killed; says through the pipe that one is in.
[[noreturn]] void import_on(const std::string& path, int pipe, const std::vector<Part>& a,
                            const std::vector<Part>& b) {
    Library library(path);
    for (;;) {
        library.put_parts(b, OtherRows::end, {"estimator", "b"});
        library.put_parts(a, OtherRows::end, {"estimator", "a"});
        if (::write(pipe, "x", 1) != 1) ::_exit(1);
    }
}

/// Kills an import some time after the first ones were acknowledged.
void kill_after(Milliseconds delay, const std::string& path, const std::vector<Part>& a,
                const std::vector<Part>& b) {
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    if (child == 0) import_on(path, ends[1], a, b);
    ::close(ends[1]); // a child that ends early must not leave us waiting
    char said = 0;
    const bool imported = ::read(ends[0], &said, 1) == 1;
    std::this_thread::sleep_for(delay);
    ::kill(child, SIGKILL);
    int status = 0;
    const bool ended = ::waitpid(child, &status, 0) == child;
    ::close(ends[0]);
    REQUIRE(imported);
    REQUIRE(ended);
    REQUIRE(WIFSIGNALED(status));
}

} // namespace

TEST_CASE("an import that is killed happened or did not happen") {
    const Scratch scratch;
    const auto a = book_of("a"), b = book_of("b");
    Library::make(scratch.library(),
                  {
                      a,
                      1,
                      starter().rules,
                  },
                  {"estimator", "a"});
    int interrupted = 0, acknowledged = 1;
    for (const int delay : {0, 2, 5, 9, 14, 20, 27, 35, 44, 54}) {
        CAPTURE(delay);
        kill_after(Milliseconds(delay), scratch.library(), a, b);
        interrupted += std::filesystem::exists(scratch.library() + "-journal");
        const auto read = Library(scratch.library()).read();
        const bool is_a = read.parts == a;
        CHECK((is_a || read.parts == b));
        CHECK(ask(scratch.library(), "SELECT reason FROM change_sets ORDER BY number DESC") ==
              (is_a ? "a" : "b"));
        CHECK(read.prices_issue > acknowledged);
        acknowledged = read.prices_issue;
        CHECK(check_library(scratch.library()).empty());
    }
    CAPTURE(interrupted);
    CHECK(interrupted > 0);
}

TEST_CASE("a library whose making is killed is whole or absent") {
    const Scratch scratch;
    const LibraryContent content = starter();
    for (const int delay : {2, 5, 9, 14, 20, 40, 80}) {
        CAPTURE(delay);
        const pid_t child = ::fork();
        if (child == 0) {
            Library::make(scratch.library(), content, {"estimator", "starter data"});
            ::_exit(0);
        }
        std::this_thread::sleep_for(Milliseconds(delay));
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
        if (std::filesystem::exists(scratch.library()))
            CHECK(check_library(scratch.library()).empty());
        std::filesystem::remove(scratch.library());
    }
    make_starter(scratch.library());
    CHECK(check_library(scratch.library()).empty());
}
