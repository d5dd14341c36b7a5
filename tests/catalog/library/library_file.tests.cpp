#include "catalog/library/library_file.h"

#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <csignal>

#include <catch2/catch.hpp>

#include "tests/catalog/library/scratch.h"

using namespace backplate;
namespace fs = std::filesystem;

namespace {

const ChangeNote note{"estimator", "new prices"};

/// Opening is refused with these words, and neither file nor folder changes.
void check_refused(const Scratch& scratch, const std::string& path, const std::string& words) {
    std::error_code ignored;
    const bool is_file = fs::is_regular_file(path, ignored);
    const auto before = is_file ? read_file(path) : "";
    const auto count = scratch.count();
    CHECK_THROWS_AS(Library(path), OutsideFault);
    CHECK_THROWS_WITH(Library(path), Catch::StartsWith(path + ": ") && Catch::Contains(words));
    if (is_file) CHECK(read_file(path) == before);
    CHECK(scratch.count() == count);
}

/// Runs an act in a process of its own; its exit status is what the act returns.
template <class Act> int in_child(Act act) {
    const pid_t child = ::fork();
    if (child == 0) ::_exit(act());
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 255;
}

/// 3 where the change failed outside, saying the words; 0 where it was made.
int change_prices(const std::string& path, const std::string& words) {
    try {
        auto parts = starter().parts;
        for (Part& part : parts) part.description += " changed";
        Library(path).put_parts(parts, OtherRows::end, note);
        return 0;
    } catch (const OutsideFault& fault) {
        return std::string(fault.what()).find(words) == std::string::npos ? 4 : 3;
    }
}

} // namespace

TEST_CASE("what is no library is refused untouched") {
    const Scratch scratch;
    const std::string text = scratch.file("list.txt");
    write_file(text, "tag;signal\nM1;DI\n" + std::string(200, ' '));
    check_refused(scratch, text, "is no library; expected a database file");
    write_file(scratch.file("empty"), "");
    check_refused(scratch, scratch.file("empty"), "is no library; expected a database file");
    fs::create_directory(scratch.file("folder"));
    check_refused(scratch, scratch.file("folder"), "is no ordinary file");
    check_refused(scratch, scratch.file("none"), "does not exist");
    fs::create_symlink("loop", scratch.file("loop"));
    check_refused(scratch, scratch.file("loop"), "cannot be read");
}

TEST_CASE("another program's database is refused untouched") {
    const Scratch scratch;
    const std::string foreign = scratch.file("foreign 100%25?#.db");
    tamper(foreign, "CREATE TABLE change_sets (number INTEGER)");
    check_refused(scratch, foreign, "found 0");
    tamper(foreign, "PRAGMA application_id = 77");
    check_refused(scratch, foreign, "found 77");
    const std::string with_log = scratch.file("log.db");
    tamper(with_log, "PRAGMA journal_mode = WAL; CREATE TABLE a (b)");
    check_refused(scratch, with_log, "found 0");
}

TEST_CASE("a library of another version is refused untouched") {
    const Scratch scratch;
    make_starter(scratch.library());
    for (const char* version : {"4", "900", "0", "-1"}) {
        tamper(scratch.library(), std::string("PRAGMA user_version = ") + version);
        check_refused(scratch, scratch.library(),
                      std::string("is a library of version ") + version +
                          "; this program reads versions 1 to 3");
    }
}

TEST_CASE("a damaged library says so") {
    const Scratch scratch;
    make_starter(scratch.library());
    fs::resize_file(scratch.library(), 8192);
    CHECK_THROWS_AS(Library(scratch.library()).read(), OutsideFault);
    CHECK_THROWS_WITH(Library(scratch.library()).read(), Catch::Contains("malformed"));
}

TEST_CASE("cells that cannot be read are named") {
    const Scratch scratch;
    make_starter(scratch.library());
    tamper(scratch.library(), "UPDATE parts SET cells = json_set(cells, '$.width_mm', 'wide') "
                              "WHERE id = 1");
    CHECK_THROWS_WITH(Library(scratch.library()).read(),
                      Catch::Contains("is damaged: part ") && Catch::Contains("field width_mm"));
    make_starter(scratch.file("b"));
    tamper(scratch.file("b"), "UPDATE rule_rows SET cells = json_set(cells, '$.colour', 'red') "
                              "WHERE table_name = 'rates'");
    CHECK_THROWS_WITH(Library(scratch.file("b")).read(),
                      Catch::Contains("table rates") && Catch::Contains("'colour'"));
    make_starter(scratch.file("c"));
    tamper(scratch.file("c"), "UPDATE parts SET cells = '[]' WHERE id = 1");
    CHECK_THROWS_AS(Library(scratch.file("c")).read(), OutsideFault);
}

TEST_CASE("a column that earlier libraries hold is passed over") {
    const Scratch scratch;
    make_starter(scratch.library());
    tamper(scratch.library(), "UPDATE rule_rows SET cells = json_set(cells, '$.support', 'later') "
                              "WHERE table_name = 'defaults'");
    CHECK(Library(scratch.library()).read().rules.find("defaults"));
}

TEST_CASE("a library is made with the folders above it") {
    const Scratch scratch;
    make_starter(scratch.file("a/b/c.backplate"));
    CHECK_FALSE(Library(scratch.file("a/b/c.backplate")).read().parts.empty());
    write_file(scratch.file("file"), "x");
    CHECK_THROWS_AS(make_starter(scratch.file("file/c.backplate")), OutsideFault);
    CHECK_THROWS_WITH(make_starter(scratch.file("file/c.backplate")),
                      Catch::Contains("cannot be made: folder"));
    CHECK(read_file(scratch.file("file")) == "x");
}

TEST_CASE("a library that cannot be made complete leaves nothing") {
    const Scratch scratch;
    CHECK_THROWS_AS(make_library_file(scratch.library(),
                                      [](SQLite::Database& database) {
                                          database.exec("INSERT INTO parts (key) VALUES (NULL)");
                                      }),
                    OutsideFault);
    CHECK(scratch.count() == 0);
}

TEST_CASE("a library that another program writes to says so") {
    const Scratch scratch;
    make_starter(scratch.library());
    SQLite::Database other(scratch.library(), SQLite::OPEN_READWRITE);
    const SQLite::Transaction busy(other, SQLite::TransactionBehavior::EXCLUSIVE);
    const auto before = in_child([&] { return change_prices(scratch.library(), "is locked"); });
    CHECK(before == 3);
}

TEST_CASE("a library without the right to write reads and does not change") {
    const Scratch scratch;
    fs::permissions(scratch.path, fs::perms{0755});
    make_starter(scratch.library());
    ::chmod(scratch.library().c_str(), 0444);
    const auto bytes = read_file(scratch.library());
    CHECK(in_child([&] { // nobody: the administrator may write everywhere
              if (::geteuid() == 0 && ::setuid(65534) != 0) return 5;
              if (Library(scratch.library()).read().parts.empty()) return 6;
              return change_prices(scratch.library(), "readonly");
          }) == 3);
    CHECK(read_file(scratch.library()) == bytes);
    CHECK(scratch.count() == 1);
}

TEST_CASE("a full disk leaves the library as it was") {
    const Scratch scratch;
    make_starter(scratch.library());
    const auto bytes = read_file(scratch.library());
    const auto size = fs::file_size(scratch.library());
    CHECK(in_child([&] { // no file may become larger than the library is
              std::signal(SIGXFSZ, SIG_IGN);
              const rlimit limit{size, size};
              if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return 5;
              return change_prices(scratch.library(), "cannot be changed");
          }) == 3);
    CHECK(Library(scratch.library()).read().prices_issue == 1);
    CHECK(read_file(scratch.library()) == bytes);
    CHECK(in_child([&] { return change_prices(scratch.library(), ""); }) == 0);
}
