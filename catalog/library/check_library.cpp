#include "catalog/library/check_library.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include "catalog/library/jobs.h"
#include "catalog/library/library_file.h"
#include "catalog/library/list_memory.h"
#include "pricing/book/rule_book.h"

namespace backplate {
namespace {

using Faults = std::vector<std::string>;

/// A question to the database that a sound one has no answer to.
struct Question {
    const char* heading;
    const char* statement; ///< each row's first column is a fault
};

constexpr Question questions[] = {
    {"pages", "SELECT quick_check FROM pragma_quick_check WHERE quick_check <> 'ok'"},
    {"references", "SELECT \"table\" || ' row ' || rowid || ' names no row of ' || parent "
                   "FROM pragma_foreign_key_check"},
    {"versions of parts",
     "SELECT DISTINCT a.key || ' has two versions at one issue' FROM parts a JOIN parts b "
     "ON b.key = a.key AND b.id > a.id "
     "WHERE (b.issue_to IS NULL OR a.issue_from < b.issue_to) "
     "AND (a.issue_to IS NULL OR b.issue_from < a.issue_to)"},
    {"versions of rules",
     "SELECT DISTINCT a.table_name || '/' || a.key || ' has two versions at one issue' "
     "FROM rule_rows a JOIN rule_rows b "
     "ON b.table_name = a.table_name AND b.key = a.key AND b.id > a.id "
     "WHERE (b.issue_to IS NULL OR a.issue_from < b.issue_to) "
     "AND (a.issue_to IS NULL OR b.issue_from < a.issue_to)"},
    {"cells", "SELECT key || ' cannot be read at issue ' || issue_from FROM "
              "(SELECT key, issue_from, cells FROM parts UNION ALL "
              "SELECT table_name || '/' || key, issue_from, cells FROM rule_rows) "
              "WHERE NOT json_valid(cells)"},
    {"change sets",
     "SELECT count(*) || ' change sets are numbered ' || min(number) || ' to ' || max(number) "
     "FROM change_sets HAVING min(number) <> 1 OR max(number) <> count(*)"},
};

/// Of libraries that hold jobs.
constexpr Question job_questions[] = {
    {"jobs", "SELECT 'job ' || number || ' has no revision or no state' FROM jobs WHERE number NOT "
             "IN (SELECT job FROM job_revisions) OR number NOT IN (SELECT job FROM job_states)"},
    {"jobs", "SELECT 'job ' || job || ' has ' || count(*) || ' revisions up to ' || max(revision) "
             "FROM job_revisions GROUP BY job HAVING count(*) <> max(revision)"},
    {"jobs", "SELECT 'job ' || job || ', revision ' || revision || ' was sent without documents' "
             "FROM job_revisions r WHERE sent_at <> '' AND NOT EXISTS (SELECT 1 FROM job_documents "
             "d WHERE d.job = r.job AND d.revision = r.revision)"},
    {"cells", "SELECT table_name || '/' || key || ' of job ' || job || ' cannot be read' "
              "FROM job_rows WHERE NOT json_valid(cells)"},
};

/// Of libraries that remember answers.
constexpr Question answer_questions[] = {
    {"answers about lists", "SELECT client || ' has answers that cannot be read' FROM list_answers "
                            "WHERE NOT json_valid(answers)"},
};

/// Damage inside the file is what is looked for; anything else is a fault of the outside world.
bool is_damage(const SQLite::Exception& error) { return error.getErrorCode() == SQLITE_CORRUPT; }

void ask(SQLite::Database& database, const Question& question, Faults& faults) {
    try {
        SQLite::Statement select(database, question.statement);
        while (select.executeStep())
            faults.push_back(
                fmt::format("{}: {}", question.heading, select.getColumn(0).getString()));
    } catch (const SQLite::Exception& error) {
        if (!is_damage(error)) throw;
        faults.push_back(fmt::format("{}: {}", question.heading, error.what()));
    }
}

void ask_jobs(SQLite::Database& database, Faults& faults) {
    const std::size_t before = faults.size();
    for (const Question& question : job_questions) ask(database, question, faults);
    if (faults.size() > before) return;
    try {
        for (const JobHead& head : read_heads(database)) read_job(database, head.number);
    } catch (const OutsideFault& fault) {
        faults.push_back(fmt::format("jobs: {}", fault.what()));
    }
}

void make_books(const std::string& path, Faults& faults) {
    try {
        const auto made = make_rule_book(Library(path).read().rules);
        for (const RuleFault& fault : made.faults)
            faults.push_back(fmt::format("rules: table {}, row {}, column {}: {}", fault.table,
                                         fault.row, fault.column, fault.text));
    } catch (const OutsideFault& fault) {
        faults.push_back(fault.what());
    }
}

} // namespace

std::vector<std::string> check_library(const std::string& path) {
    const auto database = open_library_file(path);
    Faults faults;
    on_database(path, "read", [&] {
        const SQLite::Transaction one_moment(*database);
        for (const Question& question : questions) ask(*database, question, faults);
        if (schema_version(*database) >= first_version_with_jobs) ask_jobs(*database, faults);
        if (schema_version(*database) >= first_version_with_answers)
            for (const Question& question : answer_questions) ask(*database, question, faults);
    });
    make_books(path, faults);
    return faults;
}

} // namespace backplate
