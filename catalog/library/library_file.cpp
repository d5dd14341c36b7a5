#include "catalog/library/library_file.h"

#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <string_view>

#include "catalog/library/passing_file.h"
#include "catalog/library/schema/scripts.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

constexpr std::int64_t application_id = 0x42504C42; ///< "BPLB"
constexpr int busy_ms = 3000;

int newest_version() { return static_cast<int>(schema_scripts().size()); }

/// First bytes of every database file, https://www.sqlite.org/fileformat.html, 1.3: the magic, then
/// user version and application id as big-endian 32-bit numbers.
constexpr std::size_t header_size = 100, user_version_at = 60, application_id_at = 68;
constexpr std::string_view magic("SQLite format 3\0", 16);

std::int64_t number_at(const std::array<char, header_size>& header, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i)
        value = value << 8 | static_cast<unsigned char>(header[at + i]);
    return static_cast<std::int32_t>(value);
}

/// Reads the header alone: no lock, no repair, and a change cut short (its journal is taken back
/// when the file is opened) does not look like damage.
void require_library(const std::string& path) {
    std::error_code error;
    const auto status = fs::status(path, error);
    if (!fs::exists(status) && error != std::errc::no_such_file_or_directory && error)
        throw OutsideFault(path + ": cannot be read: " + error.message());
    if (!fs::exists(status)) throw OutsideFault(path + ": does not exist; expected a library file");
    if (!fs::is_regular_file(status))
        throw OutsideFault(path + ": is no ordinary file; expected a library file");
    std::array<char, header_size> header{};
    std::ifstream file(path, std::ios::binary);
    file.read(header.data(), header.size());
    if (!file && !file.eof()) throw OutsideFault(path + ": cannot be read");
    if (std::string_view(header.data(), magic.size()) != magic)
        throw OutsideFault(path + ": is no library; expected a database file");
    const std::int64_t id = number_at(header, application_id_at);
    if (id != application_id)
        throw OutsideFault(fmt::format("{}: is no library; expected application id {}, found {}",
                                       path, application_id, id));
    const std::int64_t version = number_at(header, user_version_at);
    if (version < 1 || version > newest_version())
        throw OutsideFault(fmt::format("{}: is a library of version {}; this program reads "
                                       "versions 1 to {}",
                                       path, version, newest_version()));
}

void prepare(SQLite::Database& database) {
    database.setBusyTimeout(busy_ms);
    database.exec("PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;"
                  "PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL");
}

void make_schema(SQLite::Database& database) {
    database.exec(fmt::format("PRAGMA application_id = {}", application_id));
    bring_up_to_date(database);
}

/// A second name does not replace a library that came in between. Where the file system has no
/// second names, it is renamed.
void give_name(const std::string& made, const std::string& path) {
    std::error_code error;
    fs::create_hard_link(made, path, error);
    if (!error || error == std::errc::file_exists) return;
    fs::rename(made, path, error);
    if (error) throw OutsideFault(path + ": cannot be made: " + error.message());
}

} // namespace

std::unique_ptr<SQLite::Database> open_library_file(const std::string& path) {
    return on_database(path, "opened as a library", [&] {
        require_library(path);
        auto database = std::make_unique<SQLite::Database>(path, SQLite::OPEN_READWRITE);
        prepare(*database);
        return database;
    });
}

int schema_version(SQLite::Database& database) {
    return database.execAndGet("PRAGMA user_version").getInt();
}

void bring_up_to_date(SQLite::Database& database) {
    const auto scripts = schema_scripts();
    const auto from = static_cast<std::size_t>(schema_version(database));
    if (from >= scripts.size()) return;
    for (std::size_t step = from; step < scripts.size(); ++step)
        database.exec(std::string(scripts[step]));
    database.exec(fmt::format("PRAGMA user_version = {}", newest_version()));
}

void make_library_file(const std::string& path,
                       const std::function<void(SQLite::Database&)>& fill) {
    std::error_code error;
    const auto folder = fs::absolute(path).parent_path();
    fs::create_directories(folder, error);
    if (error)
        throw OutsideFault(path + ": cannot be made: folder " + folder.string() + ": " +
                           error.message());
    const PassingFile made(fmt::format("{}.new-{}", path, ::getpid()));
    on_database(path, "made", [&] {
        SQLite::Database database(made.path(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        prepare(database);
        SQLite::Transaction transaction(database);
        make_schema(database);
        fill(database);
        transaction.commit();
    });
    give_name(made.path(), path);
}

OutsideFault database_fault(const std::string& path, const std::string& what,
                            const SQLite::Exception& cause) {
    const std::string kind = cause.getErrorStr();
    const std::string told = cause.what();
    return OutsideFault(path + ": cannot be " + what + ": " +
                        (told.find(kind) == std::string::npos ? kind + ": " : "") + told);
}

} // namespace backplate
