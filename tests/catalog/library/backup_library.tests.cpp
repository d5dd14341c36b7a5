#include "catalog/library/backup_library.h"

#include <sys/wait.h>

#include <chrono>
#include <csignal>
#include <thread>

#include <catch2/catch.hpp>

#include "catalog/library/check_library.h"
#include "pricing/values/faults.h"
#include "tests/catalog/library/scratch.h"

using namespace backplate;
namespace fs = std::filesystem;

namespace {

std::vector<Part> book_of(const std::string& description) {
    auto parts = starter().parts;
    for (Part& part : parts) part.description = description;
    return parts;
}

/// Changes every part in turns until it is killed.
[[noreturn]] void write_on(const std::string& path) {
    Library library(path);
    const auto a = book_of("a"), b = book_of("b");
    for (;;) {
        library.put_parts(a, OtherRows::end, {"estimator", "a"});
        library.put_parts(b, OtherRows::end, {"estimator", "b"});
    }
}

/// Another program that writes into the library as long as this object lives.
class Writer {
public:
    explicit Writer(const std::string& path) : child_(::fork()) {
        if (child_ == 0) write_on(path);
    }
    ~Writer() {
        ::kill(child_, SIGKILL);
        ::waitpid(child_, nullptr, 0);
    }
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;

private:
    pid_t child_;
};

} // namespace

TEST_CASE("a backup is the library, equal and sound") {
    const Scratch scratch;
    make_starter(scratch.library());
    const Library open(scratch.library());
    const auto bytes = backup_library(scratch.library(), scratch.file("copy"));
    CHECK(bytes == fs::file_size(scratch.file("copy")));
    CHECK(check_library(scratch.file("copy")).empty());
    const auto copy = Library(scratch.file("copy")).read();
    CHECK(copy.parts == open.read().parts);
    CHECK(copy.rules.tables == open.read().rules.tables);
    CHECK(ask(scratch.file("copy"), "SELECT reason FROM change_sets") == "starter data");
    CHECK(scratch.count() == 2);
}

TEST_CASE("a backup while another connection writes is of one moment and sound") {
    const Scratch scratch;
    make_starter(scratch.library());
    const Writer writer(scratch.library());
    int made = 0;
    for (int i = 0; i < 6; ++i) {
        backup_library(scratch.library(), scratch.file("copy"), 60000);
        CHECK(check_library(scratch.file("copy")).empty());
        const auto parts = Library(scratch.file("copy")).read().parts;
        for (const Part& part : parts)
            if (part.description != parts.front().description &&
                parts.front().description.size() == 1)
                FAIL("two books are mixed");
        ++made;
        std::this_thread::sleep_for(std::chrono::milliseconds(7 * i));
    }
    CHECK(made == 6);
}

TEST_CASE("a backup that is killed leaves the old file or the new one") {
    const Scratch scratch;
    make_starter(scratch.library());
    backup_library(scratch.library(), scratch.file("copy"));
    Library(scratch.library()).put_parts(book_of("new"), OtherRows::end, {"estimator", "new"});
    for (const int delay : {0, 1, 2, 4, 7, 11, 16, 30, 60}) {
        CAPTURE(delay);
        for (const char* name : {"copy", "fresh"}) {
            const pid_t child = ::fork();
            if (child == 0) {
                backup_library(scratch.library(), scratch.file(name));
                ::_exit(0);
            }
            std::this_thread::sleep_for(std::chrono::milliseconds(delay));
            ::kill(child, SIGKILL);
            ::waitpid(child, nullptr, 0);
        }
        CHECK(check_library(scratch.file("copy")).empty());
        if (fs::exists(scratch.file("fresh"))) CHECK(check_library(scratch.file("fresh")).empty());
        fs::remove(scratch.file("fresh"));
    }
    CHECK(check_library(scratch.library()).empty());
}

TEST_CASE("a destination that must not be replaced stays") {
    const Scratch scratch;
    make_starter(scratch.library());
    fs::create_directory(scratch.file("folder"));
    fs::create_symlink(scratch.library(), scratch.file("link"));
    const auto before = read_file(scratch.library());
    CHECK_THROWS_AS(backup_library(scratch.library(), scratch.file("folder")), BadInput);
    CHECK_THROWS_AS(backup_library(scratch.library(), scratch.library()), BadInput);
    CHECK_THROWS_AS(backup_library(scratch.library(), scratch.file("link")), BadInput);
    CHECK_THROWS_AS(backup_library(scratch.library(), scratch.file("none/copy")), OutsideFault);
    write_file(scratch.file("copy"), "old");
    write_file(scratch.file("copy-journal"), "left");
    CHECK_THROWS_WITH(backup_library(scratch.library(), scratch.file("copy")),
                      Catch::Contains("copy-journal lies beside it"));
    CHECK(read_file(scratch.file("copy")) == "old");
    CHECK(read_file(scratch.library()) == before);
}

TEST_CASE("what cannot be copied leaves the old backup") {
    const Scratch scratch;
    write_file(scratch.file("copy"), "old");
    CHECK_THROWS_AS(backup_library(scratch.library(), scratch.file("copy")), OutsideFault);
    write_file(scratch.library(), "no library");
    CHECK_THROWS_AS(backup_library(scratch.library(), scratch.file("copy")), OutsideFault);
    fs::remove(scratch.library());
    make_starter(scratch.library());
    SQLite::Database holder(scratch.library(), SQLite::OPEN_READWRITE);
    holder.exec("BEGIN EXCLUSIVE");
    CHECK_THROWS_AS(backup_library(scratch.library(), scratch.file("copy"), 50), OutsideFault);
    holder.exec("ROLLBACK");
    CHECK(read_file(scratch.file("copy")) == "old");
    auto bytes = read_file(scratch.library());
    bytes.resize(bytes.size() / 2);
    write_file(scratch.library(), bytes);
    CHECK_THROWS_AS(backup_library(scratch.library(), scratch.file("copy")), OutsideFault);
    CHECK(read_file(scratch.file("copy")) == "old");
}

TEST_CASE("a link to a backup stays a link") {
    const Scratch scratch;
    make_starter(scratch.library());
    write_file(scratch.file("real"), "old");
    fs::create_symlink(scratch.file("real"), scratch.file("link"));
    backup_library(scratch.library(), scratch.file("link"));
    CHECK(fs::is_symlink(scratch.file("link")));
    CHECK(check_library(scratch.file("real")).empty());
}
