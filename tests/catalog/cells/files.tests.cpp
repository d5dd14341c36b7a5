#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <filesystem>

#include "catalog/cells/table.h"
#include "pricing/values/faults.h"

using namespace backplate;
namespace fs = std::filesystem;

namespace {

/// A folder of its own, gone at the end.
struct Folder {
    fs::path path = fs::temp_directory_path() / ("backplate-files-" + std::to_string(::getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() { fs::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string file(const char* name) const { return (path / name).string(); }
    auto count() const { return std::distance(fs::directory_iterator(path), {}); }
};

} // namespace

TEST_CASE("bytes come back as they were written") {
    const Folder folder;
    const std::string bytes("a\0\r\n\xFF", 5);
    write_file(folder.file("x"), bytes);
    CHECK(read_file(folder.file("x")) == bytes);
    write_file(folder.file("x"), "");
    CHECK(read_file(folder.file("x")).empty());
    CHECK(folder.count() == 1);
}

TEST_CASE("replacing keeps links and rights") {
    const Folder folder;
    write_file(folder.file("x"), "old");
    ::chmod(folder.file("x").c_str(), 0640);
    fs::create_symlink("x", folder.file("link"));
    write_file(folder.file("link"), "new");
    CHECK(fs::is_symlink(folder.file("link")));
    CHECK(read_file(folder.file("x")) == "new");
    CHECK((fs::status(folder.file("x")).permissions() & fs::perms::all) == fs::perms{0640});
}

TEST_CASE("a file that cannot be read says so") {
    const Folder folder;
    CHECK_THROWS_AS(read_file(folder.file("none")), BadInput);
    CHECK_THROWS_WITH(read_file(folder.file("none")),
                      Catch::EndsWith("does not exist; expected a file"));
    CHECK_THROWS_AS(read_file(folder.path.string()), BadInput);
    fs::create_symlink("loop", folder.file("loop"));
    CHECK_THROWS_AS(read_file(folder.file("loop")), OutsideFault);
    write_file(folder.file("x"), "");
    REQUIRE(::truncate(folder.file("x").c_str(), (off_t{64} << 20) + 1) == 0);
    CHECK_THROWS_WITH(read_file(folder.file("x")), Catch::EndsWith("expected at most 64 MiB"));
    REQUIRE(::truncate(folder.file("x").c_str(), off_t{64} << 20) == 0);
    CHECK(read_file(folder.file("x")).size() == std::size_t{64} << 20);
}

TEST_CASE("a file that cannot be written stays as it was") {
    const Folder folder;
    CHECK_THROWS_AS(write_file(folder.file("none/x"), "a"), OutsideFault);
    CHECK_THROWS_AS(write_file(folder.path.string(), "a"), OutsideFault);
    fs::create_directory(folder.file("kept"));
    CHECK_THROWS_AS(write_file(folder.file("kept"), "a"), OutsideFault);
    CHECK(fs::is_directory(folder.file("kept")));
    CHECK(folder.count() == 1);
}

TEST_CASE("a write that breaks off leaves the old file and no half one") {
    const Folder folder;
    write_file(folder.file("x"), "old");
    struct rlimit before {};
    REQUIRE(::getrlimit(RLIMIT_FSIZE, &before) == 0);
    const auto old_action = std::signal(SIGXFSZ, SIG_IGN);
    const struct rlimit small { 1000, before.rlim_max };
    REQUIRE(::setrlimit(RLIMIT_FSIZE, &small) == 0);
    CHECK_THROWS_AS(write_file(folder.file("x"), std::string(100'000, 'a')), OutsideFault);
    REQUIRE(::setrlimit(RLIMIT_FSIZE, &before) == 0);
    std::signal(SIGXFSZ, old_action);
    CHECK(read_file(folder.file("x")) == "old");
    CHECK(folder.count() == 1);
}

TEST_CASE("a device is not replaced by a file") {
    REQUIRE(fs::is_character_file("/dev/null"));
    CHECK_THROWS_AS(write_file("/dev/null", "a"), OutsideFault);
    CHECK(fs::is_character_file("/dev/null"));
}
