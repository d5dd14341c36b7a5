#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace SQLite {
class Database;
}

namespace backplate {

/// Who changes the library, and why.
struct ChangeNote {
    std::string person, reason;
};

/// What a change did to the rows that it named, and to those that it ended.
struct ChangeSummary {
    int added = 0, changed = 0, unchanged = 0, ended = 0;
    std::optional<int> change_set; ///< nothing where nothing changed
};

/// One change set, written down with the first row that needs it.
class ChangeSet {
public:
    ChangeSet(SQLite::Database& database, ChangeNote note)
        : database_(database), note_(std::move(note)) {}
    int number(); ///< the next number; made_at is the clock's time
    std::optional<int> made() const { return number_; }

private:
    SQLite::Database& database_;
    ChangeNote note_;
    std::optional<int> number_;
};

/// A row under its name; another ordinal or other cells make a new version of it.
struct VersionedRow {
    std::string table, key;
    double ordinal = 0;
    std::string cells;
};

/// The statements of one table of versions. Parameters of `add`: issue, table, key, ordinal, cells.
struct VersionedTable {
    const char* open;  ///< id, table, key, ordinal, cells of the open versions in their order
    const char* add;   ///< a new open version
    const char* close; ///< issue, id
    const char* issue; ///< the last issue that touched the table, 0 where none did
};

/// What becomes of open rows that a change does not name.
enum class OtherRows { stay, end };

using RowName = std::pair<std::string, std::string>; ///< table, key

/// The open versions in their order.
std::vector<VersionedRow> open_rows(SQLite::Database& database, const VersionedTable& table);
int last_issue(SQLite::Database& database, const VersionedTable& table);

/// Closes what changes or ends and opens the new versions; equal rows are left alone. Belongs into
/// a transaction of the caller. The names of the rows are unique.
ChangeSummary put_rows(SQLite::Database& database, const VersionedTable& table,
                       const std::vector<VersionedRow>& rows, OtherRows others,
                       ChangeSet& change_set);

} // namespace backplate
