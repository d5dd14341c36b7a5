#include "catalog/library/backup_library.h"

#include <SQLiteCpp/Backup.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <thread>

#include "catalog/library/library_file.h"
#include "catalog/library/passing_file.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

/// The file behind links, so that a link stays one.
std::string target_of(const std::string& path) {
    std::error_code ignored;
    const fs::path target = fs::weakly_canonical(path, ignored);
    return target.empty() ? path : target.string();
}

void require_destination(const std::string& library, const std::string& destination) {
    std::error_code ignored;
    const auto status = fs::status(destination, ignored);
    if (fs::is_directory(status))
        throw BadInput(destination + ": is a folder; expected the name of a file");
    if (fs::equivalent(library, destination, ignored))
        throw BadInput(destination + ": is the library itself; expected another file");
    if (fs::exists(status) && !fs::is_regular_file(status))
        throw OutsideFault(destination + ": cannot be replaced: is no ordinary file");
    if (fs::exists(status) && ::access(destination.c_str(), W_OK) != 0)
        throw OutsideFault(destination + ": cannot be replaced: permission denied");
    // A journal beside it would be played back into the copy.
    for (const char* end : {"-journal", "-wal"})
        if (fs::exists(destination + end, ignored))
            throw OutsideFault(destination + ": cannot be replaced: " + destination + end +
                               " lies beside it; another program works on it or was stopped");
}

/// All pages in one step, so that no writer comes in between; tries again while one holds the lock.
void copy_pages(SQLite::Database& from, SQLite::Database& to, int wait_ms) {
    const auto until = std::chrono::steady_clock::now() + std::chrono::milliseconds(wait_ms);
    SQLite::Backup backup(to, from);
    for (;;) {
        const int result = backup.executeStep(-1);
        if (result == SQLITE_DONE) return;
        if (std::chrono::steady_clock::now() > until) throw SQLite::Exception("locked", result);
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
}

void require_sound(const std::string& library, SQLite::Database& copy) {
    const std::string found = copy.execAndGet("PRAGMA quick_check(1)").getString();
    if (found != "ok") throw OutsideFault(library + ": is damaged, no backup is made: " + found);
}

} // namespace

std::uintmax_t backup_library(const std::string& library, const std::string& destination,
                              int wait_ms) {
    const auto database = open_library_file(library);
    const std::string target = target_of(destination);
    require_destination(library, target);
    const PassingFile made(fmt::format("{}.new-{}", target, ::getpid()));
    on_database(destination, "written", [&] {
        SQLite::Database copy(made.path(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        on_database(library, "copied", [&] { copy_pages(*database, copy, wait_ms); });
        require_sound(library, copy);
    });
    std::error_code error;
    const auto bytes = fs::file_size(made.path(), error);
    if (!error) fs::rename(made.path(), target, error);
    if (error) throw OutsideFault(destination + ": cannot be written: " + error.message());
    return bytes;
}

} // namespace backplate
