#include "catalog/library/library_file.h"

#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>

#include "catalog/library/schema/scripts.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

constexpr std::int64_t application_id = 0x42504C42; ///< "BPLB"
constexpr int busy_ms = 3000;

int newest_version() { return static_cast<int>(schema_scripts().size()); }

/// The path as an address that may carry parameters.
std::string address_of(const std::string& path) {
    std::string address = "file:";
    for (const char letter : fs::absolute(path).string())
        if (letter == '%' || letter == '?' || letter == '#')
            address += fmt::format("%{:02X}", static_cast<unsigned>(letter));
        else
            address += letter;
    return address;
}

/// Looks at the file as if nobody could change it: without locks, files beside it or repair.
void require_library(const std::string& path) {
    std::error_code error;
    const auto status = fs::status(path, error);
    if (!fs::exists(status) && error != std::errc::no_such_file_or_directory && error)
        throw OutsideFault(path + ": cannot be read: " + error.message());
    if (!fs::exists(status)) throw OutsideFault(path + ": does not exist; expected a library file");
    if (!fs::is_regular_file(status))
        throw OutsideFault(path + ": is no ordinary file; expected a library file");
    SQLite::Database database(address_of(path) + "?immutable=1",
                              SQLite::OPEN_READONLY | SQLite::OPEN_URI);
    const auto id = database.execAndGet("PRAGMA application_id").getInt64();
    if (id != application_id)
        throw OutsideFault(fmt::format("{}: is no library; expected application id {}, found {}",
                                       path, application_id, id));
    const int version = database.execAndGet("PRAGMA user_version").getInt();
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
    for (const auto script : schema_scripts()) database.exec(std::string(script));
    database.exec(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}",
                              application_id, newest_version()));
}

/// A file that is gone at the end, under this name at least.
class PassingFile {
public:
    explicit PassingFile(std::string path) : path_(std::move(path)) { remove(); }
    ~PassingFile() { remove(); }
    PassingFile(const PassingFile&) = delete;
    PassingFile& operator=(const PassingFile&) = delete;
    const std::string& path() const { return path_; }

private:
    void remove() const {
        std::error_code ignored;
        fs::remove(path_, ignored);
    }
    std::string path_;
};

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
