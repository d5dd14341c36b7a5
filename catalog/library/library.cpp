#include "catalog/library/library.h"

#include <fmt/format.h>

#include "catalog/library/job_changes.h"
#include "catalog/library/jobs.h"
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

LibraryContent read_content(SQLite::Database& database) {
    return {parts_of(open_rows(database, part_table)), last_issue(database, part_table),
            read_rules(database)};
}

/// What stands in the file cannot be read: which file is said here.
template <class Act> auto naming_file(const std::string& path, Act act) {
    try {
        return act();
    } catch (const OutsideFault& cause) {
        throw OutsideFault(path + ": is damaged: " + cause.what());
    }
}

/// A change that reads the library first: whole or not at all.
template <class Act>
auto in_change(const std::string& path, SQLite::Database& database, const char* what, Act act) {
    return on_database(path, what, [&] {
        SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
        bring_up_to_date(database);
        auto made = naming_file(path, [&] { return act(); });
        transaction.commit();
        return made;
    });
}

BadInput no_job(const std::string& path, int number) {
    return BadInput(
        fmt::format("{}: holds no job {}; expected a number that jobs list shows", path, number));
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
        return naming_file(path_, [&] { return read_content(*database_); });
    });
}

ChangeSummary Library::put_parts(const std::vector<Part>& parts, OtherRows others,
                                 const ChangeNote& note) {
    return on_database(path_, "changed", [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        bring_up_to_date(*database_);
        ChangeSet change_set(*database_, note);
        const auto summary = put_rows(*database_, part_table, part_rows(parts), others, change_set);
        if (summary.change_set) transaction.commit();
        return summary;
    });
}

ChangeSummary
Library::change_parts(const std::function<std::vector<Part>(const LibraryContent&)>& change,
                      const ChangeNote& note) {
    return on_database(path_, "changed", [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        const auto current = naming_file(path_, [&] { return read_content(*database_); });
        const auto rows = part_rows(change(current));
        bring_up_to_date(*database_);
        ChangeSet change_set(*database_, note);
        const auto summary = put_rows(*database_, part_table, rows, OtherRows::stay, change_set);
        if (summary.change_set) transaction.commit();
        return summary;
    });
}

ChangeSummary Library::change_rules(const std::function<RuleTables(const RuleTables&)>& change,
                                    const ChangeNote& note) {
    return on_database(path_, "changed", [&] {
        SQLite::Transaction transaction(*database_, SQLite::TransactionBehavior::IMMEDIATE);
        const auto current = naming_file(path_, [&] { return read_rules(*database_); });
        const auto rows = rule_rows(change(current), open_rows(*database_, rule_table));
        bring_up_to_date(*database_);
        ChangeSet change_set(*database_, note);
        const auto summary = put_rows(*database_, rule_table, rows, OtherRows::end, change_set);
        if (summary.change_set) transaction.commit();
        return summary;
    });
}

std::vector<JobHead> Library::jobs() const {
    return on_database(path_, "read", [&] {
        const SQLite::Transaction one_moment(*database_);
        return naming_file(path_, [&] { return read_heads(*database_); });
    });
}

Job Library::job(int number) const {
    return on_database(path_, "read", [&] {
        const SQLite::Transaction one_moment(*database_);
        auto job = naming_file(path_, [&] { return read_job(*database_, number); });
        if (!job) throw no_job(path_, number);
        return *std::move(job);
    });
}

Job Library::add_job(Job job) {
    return in_change(path_, *database_, "changed", [&] {
        job.number = next_job_number(*database_);
        write_job(*database_, nullptr, job);
        return job;
    });
}

Job Library::change_job(int number, const std::function<void(Job&)>& change) {
    return in_change(path_, *database_, "changed", [&] {
        const auto before = read_job(*database_, number);
        if (!before) throw no_job(path_, number);
        Job after = *before;
        change(after);
        write_job(*database_, &*before, after);
        return after;
    });
}

} // namespace backplate
