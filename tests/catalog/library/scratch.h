#pragma once

#include <SQLiteCpp/SQLiteCpp.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "catalog/cells/table.h"
#include "catalog/exchange/price_csv.h"
#include "catalog/exchange/rules_csv.h"
#include "catalog/library/library.h"

namespace backplate {

/// A folder of its own, gone at the end, with the paths of a test.
struct Scratch {
    std::filesystem::path path = std::filesystem::temp_directory_path() /
                                 ("backplate-library-" + std::to_string(::getpid()));
    Scratch() {
        std::filesystem::remove_all(path);
        std::filesystem::create_directories(path);
    }
    ~Scratch() { std::filesystem::remove_all(path); }
    Scratch(const Scratch&) = delete;
    Scratch& operator=(const Scratch&) = delete;

    std::string file(const std::string& name) const { return (path / name).string(); }
    std::string library() const { return file("a.backplate"); }
    auto count() const { return std::distance(std::filesystem::directory_iterator(path), {}); }
};

inline const std::string source_tree = BACKPLATE_SOURCE_TREE;

/// The data that a library starts with.
inline LibraryContent starter() {
    LibraryContent content;
    content.parts = read_parts_dir(source_tree + "/demo/prices");
    content.rules = read_rules_dir(source_tree + "/catalog/starter/rules");
    return content;
}

inline void make_starter(const std::string& path) {
    Library::make(path, starter(), {"estimator", "starter data"});
}

/// What one question to the file answers.
inline std::string ask(const std::string& path, const std::string& question) {
    SQLite::Database database(path);
    return database.execAndGet(question).getString();
}

/// A statement on the file past the library.
inline void tamper(const std::string& path, const std::string& statements) {
    SQLite::Database(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec(statements);
}

} // namespace backplate
