#include "catalog/library/job_changes.h"

#include <SQLiteCpp/SQLiteCpp.h>

namespace backplate {
namespace {

void bind_all(SQLite::Statement&, int) {}

template <class Value, class... Values>
void bind_all(SQLite::Statement& statement, int place, const Value& value, const Values&... rest) {
    statement.bind(place, value);
    bind_all(statement, place + 1, rest...);
}

template <class... Values>
void run(SQLite::Database& database, const char* text, const Values&... values) {
    SQLite::Statement statement(database, text);
    bind_all(statement, 1, values...);
    statement.exec();
}

void put_rows_used(SQLite::Database& database, int job, const JobRevision& revision) {
    run(database, "DELETE FROM job_rows WHERE job = ? AND revision = ?", job, revision.number);
    SQLite::Statement insert(database, "INSERT INTO job_rows (job, revision, table_name, key, "
                                       "cells) VALUES (?, ?, ?, ?, ?)");
    for (const UsedRow& row : revision.rows) {
        bind_all(insert, 1, job, revision.number, row.table, row.key, row.cells);
        insert.exec();
        insert.reset();
    }
}

void put_documents(SQLite::Database& database, int job, const JobRevision& revision) {
    for (const SentDocument& document : revision.documents) {
        SQLite::Statement insert(database, "INSERT INTO job_documents (job, revision, name, bytes) "
                                           "VALUES (?, ?, ?, ?)");
        bind_all(insert, 1, job, revision.number, document.name);
        insert.bind(4, document.bytes.data(), static_cast<int>(document.bytes.size()));
        insert.exec();
    }
}

/// The revision as work; last of all it becomes one that was sent, and is closed from then on.
void put_revision(SQLite::Database& database, int job, const JobRevision& revision) {
    run(database,
        "INSERT INTO job_revisions (job, revision, request, estimate, prices_issue, rules_issue, "
        "price, currency, due, demo_data, saved_at, person, sent_at) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, '') "
        "ON CONFLICT (job, revision) DO UPDATE SET request = excluded.request, "
        "estimate = excluded.estimate, prices_issue = excluded.prices_issue, "
        "rules_issue = excluded.rules_issue, price = excluded.price, "
        "currency = excluded.currency, due = excluded.due, demo_data = excluded.demo_data, "
        "saved_at = excluded.saved_at, person = excluded.person",
        job, revision.number, revision.request, revision.estimate, revision.prices_issue,
        revision.rules_issue, revision.price, revision.currency, revision.due,
        revision.demo_data ? 1 : 0, revision.saved_at, revision.person);
    put_rows_used(database, job, revision);
    put_documents(database, job, revision);
    if (revision.sent())
        run(database, "UPDATE job_revisions SET sent_at = ? WHERE job = ? AND revision = ?",
            revision.sent_at, job, revision.number);
}

void put_head(SQLite::Database& database, const Job& job) {
    run(database,
        "INSERT INTO jobs (number, title, origin) VALUES (?, ?, ?) "
        "ON CONFLICT (number) DO UPDATE SET title = excluded.title",
        job.number, job.title, job.origin);
    if (job.copied_from)
        run(database, "UPDATE jobs SET copied_job = ?, copied_revision = ? WHERE number = ?",
            job.copied_from->job, job.copied_from->revision, job.number);
}

void put_unconfirmed(SQLite::Database& database, const Job& job) {
    run(database, "DELETE FROM job_unconfirmed WHERE job = ?", job.number);
    for (const InheritedValue& value : job.unconfirmed)
        run(database, "INSERT INTO job_unconfirmed (job, field, value) VALUES (?, ?, ?)",
            job.number, value.field, value.value);
}

void add_states(SQLite::Database& database, const Job& job, std::size_t known) {
    for (std::size_t i = known; i < job.states.size(); ++i) {
        const StateChange& change = job.states[i];
        run(database,
            "INSERT INTO job_states (job, revision, state, day, reason, made_at, person) "
            "VALUES (?, ?, ?, ?, ?, ?, ?)",
            job.number, change.revision, std::string(state_word(change.state)), change.day.text(),
            change.reason, change.at, change.person);
    }
}

} // namespace

int next_job_number(SQLite::Database& database) {
    return database.execAndGet("SELECT coalesce(max(number), 0) + 1 FROM jobs").getInt();
}

void write_job(SQLite::Database& database, const Job* before, const Job& after) {
    if (!before || before->title != after.title || before->copied_from != after.copied_from)
        put_head(database, after);
    for (const JobRevision& revision : after.revisions) {
        const JobRevision* old = before ? before->revision(revision.number) : nullptr;
        if (!old || !(*old == revision)) put_revision(database, after.number, revision);
    }
    if (!before || before->unconfirmed != after.unconfirmed) put_unconfirmed(database, after);
    add_states(database, after, before ? before->states.size() : 0);
}

} // namespace backplate
