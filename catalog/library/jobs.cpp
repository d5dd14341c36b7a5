#include "catalog/library/jobs.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "catalog/library/library_file.h"

namespace backplate {
namespace {

JobState state_of(const std::string& word) {
    if (const auto state = find_state(word)) return *state;
    throw OutsideFault("a job's state is '" + word + "'");
}

Date day_of(const std::string& text) {
    if (const auto day = Date::parse(text)) return *day;
    throw OutsideFault("a job's day is '" + text + "'");
}

std::vector<UsedRow> rows_of(SQLite::Database& database, int job, int revision) {
    SQLite::Statement select(database, "SELECT table_name, key, cells FROM job_rows "
                                       "WHERE job = ? AND revision = ? ORDER BY table_name, key");
    select.bind(1, job);
    select.bind(2, revision);
    std::vector<UsedRow> rows;
    while (select.executeStep())
        rows.push_back({select.getColumn(0), select.getColumn(1), select.getColumn(2)});
    return rows;
}

std::vector<SentDocument> documents_of(SQLite::Database& database, int job, int revision) {
    SQLite::Statement select(database, "SELECT name, bytes FROM job_documents "
                                       "WHERE job = ? AND revision = ? ORDER BY name");
    select.bind(1, job);
    select.bind(2, revision);
    std::vector<SentDocument> documents;
    while (select.executeStep()) {
        const SQLite::Column bytes = select.getColumn(1);
        documents.push_back(
            {select.getColumn(0), std::string(static_cast<const char*>(bytes.getBlob()),
                                              static_cast<std::size_t>(bytes.getBytes()))});
    }
    return documents;
}

std::vector<JobRevision> revisions_of(SQLite::Database& database, int job) {
    SQLite::Statement select(database,
                             "SELECT revision, request, estimate, prices_issue, rules_issue, "
                             "price, currency, due, demo_data, saved_at, person, sent_at "
                             "FROM job_revisions WHERE job = ? ORDER BY revision");
    select.bind(1, job);
    std::vector<JobRevision> revisions;
    while (select.executeStep()) {
        JobRevision& revision = revisions.emplace_back();
        revision.number = select.getColumn(0);
        revision.request = select.getColumn(1).getString();
        revision.estimate = select.getColumn(2).getString();
        revision.prices_issue = select.getColumn(3);
        revision.rules_issue = select.getColumn(4);
        revision.price = select.getColumn(5).getString();
        revision.currency = select.getColumn(6).getString();
        revision.due = select.getColumn(7).getString();
        revision.demo_data = select.getColumn(8).getInt() != 0;
        revision.saved_at = select.getColumn(9).getString();
        revision.person = select.getColumn(10).getString();
        revision.sent_at = select.getColumn(11).getString();
        revision.rows = rows_of(database, job, revision.number);
        revision.documents = documents_of(database, job, revision.number);
    }
    return revisions;
}

std::vector<StateChange> states_of(SQLite::Database& database, int job) {
    SQLite::Statement select(database, "SELECT revision, state, day, reason, made_at, person "
                                       "FROM job_states WHERE job = ? ORDER BY id");
    select.bind(1, job);
    std::vector<StateChange> states;
    while (select.executeStep())
        states.push_back({select.getColumn(0), state_of(select.getColumn(1)),
                          day_of(select.getColumn(2)), select.getColumn(3), select.getColumn(4),
                          select.getColumn(5)});
    return states;
}

std::vector<InheritedValue> unconfirmed_of(SQLite::Database& database, int job) {
    SQLite::Statement select(database, "SELECT field, value FROM job_unconfirmed WHERE job = ? "
                                       "ORDER BY field");
    select.bind(1, job);
    std::vector<InheritedValue> values;
    while (select.executeStep()) values.push_back({select.getColumn(0), select.getColumn(1)});
    return values;
}

} // namespace

std::vector<JobHead> read_heads(SQLite::Database& database) {
    std::vector<JobHead> heads;
    if (schema_version(database) < first_version_with_jobs) return heads;
    SQLite::Statement select(
        database,
        "SELECT j.number, r.revision, j.title, s.state, r.due, r.price, r.currency, r.demo_data "
        "FROM jobs j JOIN job_revisions r ON r.job = j.number AND r.revision = "
        "(SELECT max(revision) FROM job_revisions WHERE job = j.number) "
        "JOIN job_states s ON s.id = (SELECT max(id) FROM job_states WHERE job = j.number) "
        "ORDER BY j.number");
    while (select.executeStep())
        heads.push_back({select.getColumn(0), select.getColumn(1), select.getColumn(2),
                         state_of(select.getColumn(3)), select.getColumn(4), select.getColumn(5),
                         select.getColumn(6), select.getColumn(7).getInt() != 0});
    return heads;
}

std::optional<Job> read_job(SQLite::Database& database, int number) {
    if (schema_version(database) < first_version_with_jobs) return std::nullopt;
    SQLite::Statement select(database, "SELECT title, origin, copied_job, copied_revision "
                                       "FROM jobs WHERE number = ?");
    select.bind(1, number);
    if (!select.executeStep()) return std::nullopt;
    Job job;
    job.number = number;
    job.title = select.getColumn(0).getString();
    job.origin = select.getColumn(1).getString();
    if (!select.getColumn(2).isNull())
        job.copied_from = Template{select.getColumn(2), select.getColumn(3)};
    job.revisions = revisions_of(database, number);
    job.states = states_of(database, number);
    job.unconfirmed = unconfirmed_of(database, number);
    if (job.revisions.empty() || job.states.empty())
        throw OutsideFault(fmt::format("job {} has no revision or no state", number));
    return job;
}

} // namespace backplate
