#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <functional>
#include <memory>
#include <string>

#include "pricing/values/faults.h"

namespace backplate {

/// Opens a library as it is, for writing where its rights allow. Throws OutsideFault, and leaves
/// the file untouched, where it is absent, no library, or made by a newer program.
std::unique_ptr<SQLite::Database> open_library_file(const std::string& path);

/// The version of the schema that stands in the file.
int schema_version(SQLite::Database& database);

/// Brings the schema to the newest version, as the first step of a change: it belongs into the
/// transaction of the caller, so that a library that is only read stays as it is.
void bring_up_to_date(SQLite::Database& database);

/// Makes an empty library beside `path` with the folders above it, lets `fill` write into it and
/// gives it its name when it is complete. A library that took the name meanwhile stays.
/// Throws OutsideFault.
void make_library_file(const std::string& path, const std::function<void(SQLite::Database&)>& fill);

/// A fault of the database in words: which file, what could not be done, and why.
OutsideFault database_fault(const std::string& path, const std::string& what,
                            const SQLite::Exception& cause);

/// Runs an act on the database; its faults become OutsideFault naming the file and what was done.
template <class Act> auto on_database(const std::string& path, const std::string& what, Act act) {
    try {
        return act();
    } catch (const SQLite::Exception& cause) {
        throw database_fault(path, what, cause);
    }
}

} // namespace backplate
