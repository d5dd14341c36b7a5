#include "catalog/library/library.h"

#include "catalog/library/library_file.h"
#include "catalog/library/part_rows.h"
#include "catalog/library/rule_rows.h"

namespace backplate {
namespace {

RuleTables read_rules(SQLite::Database& database) {
    RuleTables rules = rules_of(open_rows(database, rule_table));
    rules.issue = last_issue(database, rule_table);
    return rules;
}

/// What stands in the file cannot be read: which file is said here.
template <class Act> auto naming_file(const std::string& path, Act act) {
    try {
        return act();
    } catch (const OutsideFault& cause) {
        throw OutsideFault(path + ": is damaged: " + cause.what());
    }
}

} // namespace

Library::Library(std::string path) : path_(std::move(path)), database_(open_library_file(path_)) {}

Library::~Library() = default;
Library::Library(Library&&) noexcept = default;
Library& Library::operator=(Library&&) noexcept = default;

void Library::make(const std::string& path, const LibraryContent& content, const ChangeNote& note) {
    make_library_file(path, [&](SQLite::Database& database) {
        ChangeSet change_set(database, note);
        put_rows(database, part_table, part_rows(content.parts), OtherRows::end, change_set);
        put_rows(database, rule_table, rule_rows(content.rules, {}), OtherRows::end, change_set);
    });
}

LibraryContent Library::read() const {
    return on_database(path_, "read", [&] {
        const SQLite::Transaction one_moment(*database_);
        return naming_file(path_, [&] {
            return LibraryContent{parts_of(open_rows(*database_, part_table)),
                                  last_issue(*database_, part_table), read_rules(*database_)};
        });
    });
}

ChangeSummary Library::put_parts(const std::vector<Part>& parts, OtherRows others,
                                 const ChangeNote& note) {
    return on_database(path_, "changed", [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        ChangeSet change_set(*database_, note);
        const auto summary = put_rows(*database_, part_table, part_rows(parts), others, change_set);
        transaction.commit();
        return summary;
    });
}

ChangeSummary Library::change_rules(const std::function<RuleTables(const RuleTables&)>& change,
                                    const ChangeNote& note) {
    return on_database(path_, "changed", [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        const auto current = naming_file(path_, [&] { return read_rules(*database_); });
        const auto rows = rule_rows(change(current), open_rows(*database_, rule_table));
        ChangeSet change_set(*database_, note);
        const auto summary = put_rows(*database_, rule_table, rows, OtherRows::end, change_set);
        transaction.commit();
        return summary;
    });
}

} // namespace backplate
