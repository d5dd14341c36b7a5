#include "catalog/library/change_sets.h"

#include "catalog/library/library_file.h"
#include "catalog/library/part_rows.h"
#include "catalog/library/rule_rows.h"

namespace backplate {
namespace {

/// One table of versions as SQL: its name and what names a row of it.
struct Versions {
    const char* table;
    const char* named; ///< a text for messages
    const char* same;  ///< joins b to a of the same row
    const char* row;   ///< table and key, ordinal, cells
};

constexpr Versions part_versions{"parts", "'part ' || a.key", "b.key = a.key",
                                 "'', a.key, 0.0, a.cells"};
constexpr Versions rule_versions{"rule_rows", "'rule ' || a.table_name || '/' || a.key",
                                 "b.table_name = a.table_name AND b.key = a.key",
                                 "a.table_name, a.key, a.ordinal, a.cells"};

using Text = std::string;

int count(SQLite::Database& database, const Text& condition, int number) {
    SQLite::Statement select(database, "SELECT count(*) FROM " + condition);
    select.bind(1, number);
    select.executeStep();
    return select.getColumn(0).getInt();
}

struct Counts {
    int added = 0, changed = 0, ended = 0;
};

Counts counts_of(SQLite::Database& database, const Versions& of, int number) {
    const Text a = Text(of.table) + " a";
    const int changed = count(database,
                              a + " JOIN " + of.table + " b ON " + of.same +
                                  " AND b.issue_to = a.issue_from WHERE a.issue_from = ?",
                              number);
    return {count(database, a + " WHERE a.issue_from = ?", number) - changed, changed,
            count(database, a + " WHERE a.issue_to = ?", number) - changed};
}

/// The first row that a later change set touched, in words; empty where none was.
Text touched_later(SQLite::Database& database, const Versions& of, int number) {
    SQLite::Statement select(
        database, Text("SELECT ") + of.named + ", max(max(b.issue_from, coalesce(b.issue_to, 0)))" +
                      " FROM " + of.table + " a JOIN " + of.table + " b ON " + of.same +
                      " WHERE (a.issue_from = ?1 OR a.issue_to = ?1) AND "
                      "max(b.issue_from, coalesce(b.issue_to, 0)) > ?1 GROUP BY 1 ORDER BY 1");
    select.bind(1, number);
    if (!select.executeStep()) return {};
    return select.getColumn(0).getString() + " was changed again by change set " +
           std::to_string(select.getColumn(1).getInt());
}

/// A rule row that stands now where one of the rows to come back stood.
Text place_taken(SQLite::Database& database, int number) {
    SQLite::Statement select(
        database, "SELECT 'the place of rule ' || a.table_name || '/' || a.key || ' was given to ' "
                  "|| b.key || ' by change set ' || b.issue_from FROM rule_rows a JOIN rule_rows b "
                  "ON b.table_name = a.table_name AND b.ordinal = a.ordinal AND b.key <> a.key "
                  "WHERE a.issue_to = ?1 AND b.issue_to IS NULL AND b.issue_from > ?1 ORDER BY 1");
    select.bind(1, number);
    return select.executeStep() ? select.getColumn(0).getString() : Text();
}

std::vector<VersionedRow> rows_before(SQLite::Database& database, const Versions& of, int number) {
    SQLite::Statement select(database, Text("SELECT ") + of.row + " FROM " + of.table +
                                           " a WHERE a.issue_to = ?");
    select.bind(1, number);
    std::vector<VersionedRow> rows;
    while (select.executeStep())
        rows.push_back({select.getColumn(0).getString(), select.getColumn(1).getString(),
                        select.getColumn(2).getDouble(), select.getColumn(3).getString()});
    return rows;
}

/// Closes what the change set opened and opens again what it closed.
ChangeSummary take_back(SQLite::Database& database, const Versions& of, const VersionedTable& table,
                        int number, ChangeSet& change_set) {
    const Counts counts = counts_of(database, of, number);
    const auto rows = rows_before(database, of, number);
    ChangeSummary summary;
    if (counts.added + counts.changed + counts.ended == 0) return summary;
    SQLite::Statement close(database, Text("UPDATE ") + of.table +
                                          " SET issue_to = ?1 WHERE issue_from = ?2");
    close.bind(1, change_set.number());
    close.bind(2, number);
    close.exec();
    summary = put_rows(database, table, rows, OtherRows::stay, change_set);
    summary.added = counts.ended;
    summary.changed = counts.changed;
    summary.ended = counts.added;
    return summary;
}

Text refusal_of(SQLite::Database& database, int number) {
    if (number == 1) return "it holds what the library was made with";
    for (const Versions* of : {&part_versions, &rule_versions})
        if (const Text later = touched_later(database, *of, number); !later.empty()) return later;
    if (const Text taken = place_taken(database, number); !taken.empty()) return taken;
    const Counts parts = counts_of(database, part_versions, number);
    const Counts rules = counts_of(database, rule_versions, number);
    const bool any =
        parts.added + parts.changed + parts.ended + rules.added + rules.changed + rules.ended > 0;
    return any ? "" : "it changed no part and no rule";
}

LibraryContent content_of(SQLite::Database& database) {
    LibraryContent content{
        parts_of(open_rows(database, part_table)), last_issue(database, part_table), {}};
    content.rules = rules_of(open_rows(database, rule_table));
    content.rules.issue = last_issue(database, rule_table);
    return content;
}

} // namespace

std::vector<ChangeSetHead> list_change_sets(const std::string& path) {
    const auto database = open_library_file(path);
    return on_database(path, "read", [&] {
        const SQLite::Transaction one_moment(*database);
        std::vector<ChangeSetHead> heads;
        SQLite::Statement select(*database, "SELECT number, made_at, person, reason "
                                            "FROM change_sets ORDER BY number");
        while (select.executeStep()) {
            ChangeSetHead head{select.getColumn(0).getInt(), select.getColumn(1).getString(),
                               select.getColumn(2).getString(), select.getColumn(3).getString()};
            const Counts parts = counts_of(*database, part_versions, head.number);
            const Counts rules = counts_of(*database, rule_versions, head.number);
            head.parts_added = parts.added;
            head.parts_changed = parts.changed;
            head.parts_ended = parts.ended;
            head.rules_added = rules.added;
            head.rules_changed = rules.changed;
            head.rules_ended = rules.ended;
            heads.push_back(std::move(head));
        }
        return heads;
    });
}

Undone undo_change_set(const std::string& path, int number,
                       const std::function<void(const LibraryContent&)>& check,
                       const ChangeNote& note) {
    const auto database = open_library_file(path);
    return on_database(path, "changed", [&] {
        SQLite::Transaction transaction(*database, SQLite::TransactionBehavior::IMMEDIATE);
        const int last = database->execAndGet("SELECT max(number) FROM change_sets").getInt();
        if (count(*database, "change_sets WHERE number = ?", number) == 0)
            throw BadInput(path + ": has no change set " + std::to_string(number) +
                           "; expected 2 to " + std::to_string(last));
        Undone undone;
        undone.refusal = refusal_of(*database, number);
        if (!undone.refusal.empty()) return undone;
        bring_up_to_date(*database);
        ChangeSet change_set(*database, note);
        undone.parts = take_back(*database, part_versions, part_table, number, change_set);
        undone.rules = take_back(*database, rule_versions, rule_table, number, change_set);
        check(content_of(*database));
        transaction.commit();
        return undone;
    });
}

} // namespace backplate
