#include "catalog/library/versions.h"

#include <SQLiteCpp/SQLiteCpp.h>

namespace backplate {
namespace {

struct OpenVersion {
    std::int64_t id = 0;
    VersionedRow row;
};

std::vector<OpenVersion> open_versions(SQLite::Database& database, const VersionedTable& table) {
    std::vector<OpenVersion> versions;
    SQLite::Statement select(database, table.open);
    while (select.executeStep())
        versions.push_back({select.getColumn(0).getInt64(),
                            {select.getColumn(1).getString(), select.getColumn(2).getString(),
                             select.getColumn(3).getDouble(), select.getColumn(4).getString()}});
    return versions;
}

/// What has to be written so that the wanted rows stand.
struct Difference {
    std::vector<std::int64_t> close;
    std::vector<const VersionedRow*> add;
    ChangeSummary summary;
};

Difference difference(const std::vector<OpenVersion>& open, const std::vector<VersionedRow>& rows,
                      OtherRows others) {
    std::map<RowName, const OpenVersion*> left;
    for (const OpenVersion& version : open)
        left.emplace(RowName{version.row.table, version.row.key}, &version);
    Difference found;
    for (const VersionedRow& row : rows) {
        const auto name = left.extract({row.table, row.key});
        const OpenVersion* old = name ? name.mapped() : nullptr;
        if (old && old->row.ordinal == row.ordinal && old->row.cells == row.cells) {
            ++found.summary.unchanged;
            continue;
        }
        ++(old ? found.summary.changed : found.summary.added);
        if (old) found.close.push_back(old->id);
        found.add.push_back(&row);
    }
    if (others == OtherRows::stay) return found;
    for (const auto& [name, version] : left) found.close.push_back(version->id);
    found.summary.ended = static_cast<int>(left.size());
    return found;
}

} // namespace

int ChangeSet::number() {
    if (number_) return *number_;
    SQLite::Statement insert(
        database_, "INSERT INTO change_sets (number, made_at, person, reason) "
                   "SELECT coalesce(max(number), 0) + 1, strftime('%Y-%m-%dT%H:%M:%SZ', 'now'), "
                   "?, ? FROM change_sets");
    insert.bind(1, note_.person);
    insert.bind(2, note_.reason);
    insert.exec();
    number_ = static_cast<int>(database_.getLastInsertRowid());
    return *number_;
}

std::vector<VersionedRow> open_rows(SQLite::Database& database, const VersionedTable& table) {
    std::vector<VersionedRow> rows;
    for (OpenVersion& version : open_versions(database, table))
        rows.push_back(std::move(version.row));
    return rows;
}

int last_issue(SQLite::Database& database, const VersionedTable& table) {
    return database.execAndGet(table.issue).getInt();
}

ChangeSummary put_rows(SQLite::Database& database, const VersionedTable& table,
                       const std::vector<VersionedRow>& rows, OtherRows others,
                       ChangeSet& change_set) {
    const auto open = open_versions(database, table);
    Difference change = difference(open, rows, others);
    SQLite::Statement close(database, table.close);
    for (const auto id : change.close) {
        close.bind(1, change_set.number());
        close.bind(2, id);
        close.exec();
        close.reset();
    }
    SQLite::Statement add(database, table.add);
    for (const VersionedRow* row : change.add) {
        add.bind(1, change_set.number());
        add.bind(2, row->table);
        add.bind(3, row->key);
        add.bind(4, row->ordinal);
        add.bind(5, row->cells);
        add.exec();
        add.reset();
    }
    change.summary.change_set = change_set.made();
    return change.summary;
}

} // namespace backplate
