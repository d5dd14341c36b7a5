#include <iostream>
#include <random>

#include <catch2/catch.hpp>

#include "catalog/library/backup_library.h"
#include "catalog/library/check_library.h"
#include "tests/catalog/library/job_samples.h"
#include "tests/catalog/library/scratch.h"

using namespace backplate;

namespace {

/// The small library that schema 1 left.
void copy_first_schema(const Scratch& scratch) {
    std::filesystem::copy(source_tree + "/tests/libraries/schema_001/library.backplate",
                          scratch.library());
}

/// Everything that the file says of one revision.
std::string stored(const std::string& path, const std::string& table, int job, int revision) {
    SQLite::Database database(path);
    SQLite::Statement select(database,
                             "SELECT * FROM " + table + " WHERE job = ? AND revision = ?");
    select.bind(1, job);
    select.bind(2, revision);
    std::string text;
    while (select.executeStep())
        for (int i = 0; i < select.getColumnCount(); ++i)
            text += select.getColumn(i).getString() + "\n";
    return text;
}

/// Of the first revision of job 1.
std::string all_stored(const std::string& path) {
    std::string text;
    for (const char* table : {"job_revisions", "job_rows", "job_documents"})
        text += stored(path, table, 1, 1);
    return text;
}

void any_act(Library& library, int number, unsigned which, const std::string& text) {
    const auto change = [&](const auto& act) { library.change_job(number, act); };
    const JobRevision revision = sample_revision(text);
    const Date day = Date::of(2026, 11, 9);
    if (which == 0)
        library.add_job(copy_of(library.job(number), revision, {{"/a", "1"}}, stamp_on(9)));
    else if (which == 1)
        change([&](Job& job) { revise(job, revision, "", stamp_on(9)); });
    else if (which == 2)
        change([&](Job& job) { save_work(job, revision, {}, stamp_on(9)); });
    else if (which == 3)
        change(send_sample);
    else
        change([&](Job& job) { record_outcome(job, JobState::lost, day, "x", stamp_on(9)); });
}

} // namespace

TEST_CASE("a saved job comes back equal, numbered from one") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    CHECK(library.jobs().empty());
    Job job = library.add_job(sample_job());
    CHECK(job.number == 1);
    CHECK(library.job(1) == job);
    CHECK(library.add_job(sample_job("Pump station")).number == 2);
    const auto heads = library.jobs();
    REQUIRE(heads.size() == 2);
    CHECK(heads[1].title == "Pump station");
    CHECK(heads[0].state == JobState::enquiry);
    CHECK(heads[0].price == "82.50");
    CHECK(heads[0].due == "2026-12-01");
    CHECK(heads[0].demo_data);
    CHECK_THROWS_WITH(library.job(3), Catch::Contains("holds no job 3"));
    CHECK_THROWS_AS(library.change_job(3, [](Job&) {}), BadInput);
}

TEST_CASE("every change of a job comes back equal") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    Job copy = copy_of(library.add_job(sample_job()), sample_revision("copy"),
                       {{"/job/title", "\"Kiln\""}, {"/spare", ""}}, stamp_on(1));
    copy = library.add_job(copy);
    const std::vector<std::function<void(Job&)>> acts{
        [](Job& job) { save_work(job, sample_revision("b"), job.unconfirmed, stamp_on(2)); },
        [](Job& job) { confirm(job, {"/spare"}); },
        [](Job& job) { job.title = "Kiln, two burners"; },
        send_sample,
        [](Job& job) { revise(job, sample_revision("c"), "more pumps", stamp_on(3)); },
        [](Job& job) { save_work(job, sample_revision("d"), {}, stamp_on(3)); },
        send_sample,
        [](Job& job) {
            record_outcome(job, JobState::won, Date::of(2026, 11, 4), "", stamp_on(5));
        }};
    for (const auto& act : acts) {
        act(copy);
        CHECK(library.change_job(2, act) == copy);
        CHECK(library.job(2) == copy);
        CHECK(check_library(scratch.library()).empty());
    }
    CHECK(library.jobs().at(1).revision == 2);
    CHECK(library.jobs().at(1).state == JobState::won);
    CHECK(library.read().prices_issue == 1);
}

TEST_CASE("a change of a job that throws leaves the bytes") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    library.add_job(sample_job());
    const auto before = read_file(scratch.library());
    CHECK_THROWS_AS(library.change_job(1,
                                       [](Job& job) {
                                           job.title = "half";
                                           throw BadInput("no");
                                       }),
                    BadInput);
    CHECK(read_file(scratch.library()) == before);
}

TEST_CASE("the file itself refuses to change what was sent") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library library(scratch.library());
    library.add_job(sample_job());
    library.change_job(1, send_sample);
    const Job before = library.job(1);
    const std::vector<std::function<void(Job&)>> acts{
        [](Job& job) { job.revisions[0].request += " "; },
        [](Job& job) { job.revisions[0].price = "1.00"; },
        [](Job& job) { job.revisions[0].rows.clear(); },
        [](Job& job) { job.revisions[0].documents[0].bytes += "x"; },
        [](Job& job) {
            job.revisions[0].documents.push_back({"more.pdf", "x"});
        },
        [](Job& job) { job.revisions[0].sent_at.clear(); }};
    for (const auto& act : acts) {
        CHECK_THROWS_AS(library.change_job(1, act), OutsideFault);
        CHECK(library.job(1) == before);
    }
    for (const char* statement :
         {"UPDATE job_revisions SET request = ''", "DELETE FROM job_revisions",
          "UPDATE job_documents SET bytes = x'00'", "DELETE FROM job_documents",
          "DELETE FROM job_rows", "UPDATE job_rows SET cells = '{}'",
          "INSERT INTO job_documents VALUES (1, 1, 'a', x'00')",
          "INSERT INTO job_rows VALUES (1, 1, 'rates', 'zz', '{}')",
          "INSERT OR REPLACE INTO job_documents VALUES (1, 1, 'quote.xlsx', x'00')"}) {
        CAPTURE(statement);
        CHECK_THROWS_WITH(tamper(scratch.library(), statement),
                          Catch::Contains("sent") || Catch::Contains("as a whole"));
        CHECK(library.job(1) == before);
    }
}

TEST_CASE("copies and revisions leave the stored original alone") {
    const Scratch scratch;
    copy_first_schema(scratch);
    const auto faults = check_library(scratch.library()); // its few rules make no rule book
    Library library(scratch.library());
    library.add_job(sample_job());
    library.change_job(1, send_sample);
    const std::string first = all_stored(scratch.library());
    std::mt19937 random(11);
    int acts = 0;
    for (; acts < 300; ++acts) {
        const int jobs = static_cast<int>(library.jobs().size());
        const int number = jobs > 3 ? 1 + static_cast<int>(random() % 4U) : 1;
        try {
            any_act(library, number, random() % 5U, std::to_string(acts));
        } catch (const BadInput&) {
        }
        REQUIRE(all_stored(scratch.library()) == first);
    }
    CHECK(check_library(scratch.library()) == faults);
    std::cout << acts << " acts on stored jobs judged, " << library.jobs().size() << " jobs, "
              << library.job(1).revisions.size() << " revisions of the first\n";
    CHECK(library.job(1).revisions.size() > 5);
    CHECK(library.jobs().size() > 5);
}

TEST_CASE("a library of schema 1 is read as it is and migrated by its first change") {
    const Scratch scratch;
    copy_first_schema(scratch);
    const auto before = read_file(scratch.library());
    const auto content = Library(scratch.library()).read();
    CHECK(Library(scratch.library()).jobs().empty());
    CHECK_THROWS_AS(Library(scratch.library()).job(1), BadInput);
    const auto faults = check_library(scratch.library());
    backup_library(scratch.library(), scratch.file("copy"));
    CHECK(ask(scratch.file("copy"), "PRAGMA user_version") == "1");
    Library library(scratch.library());
    CHECK_FALSE(library.put_parts({}, OtherRows::stay, {"estimator", "none"}).change_set);
    CHECK(read_file(scratch.library()) == before);
    library.add_job(sample_job());
    CHECK(ask(scratch.library(), "PRAGMA user_version") == "3");
    CHECK(library.job(1).title == "Kiln");
    const auto after = library.read();
    CHECK(after.parts == content.parts);
    CHECK(after.rules.tables == content.rules.tables);
    CHECK(after.prices_issue == content.prices_issue);
    CHECK(check_library(scratch.library()) == faults);
}

// The library was made by schema 2 with fill_schema_002 on a copy of the library of schema 1.
TEST_CASE("a library of schema 2 opens with its jobs") {
    const Scratch scratch;
    std::filesystem::copy(source_tree + "/tests/libraries/schema_002/library.backplate",
                          scratch.library());
    const auto bytes = read_file(scratch.library());
    const Library library(scratch.library());
    std::filesystem::copy(source_tree + "/tests/libraries/schema_001/library.backplate",
                          scratch.file("made"));
    Library made(scratch.file("made"));
    fill_schema_002(made);
    CHECK(library.read().parts == made.read().parts);
    REQUIRE(library.jobs().size() == 3);
    for (const int number : {1, 2, 3}) CHECK(library.job(number) == made.job(number));
    CHECK(library.job(1).revisions.at(0).documents.at(0) == sample_document);
    CHECK(check_library(scratch.library()) == check_library(scratch.file("made")));
    CHECK(read_file(scratch.library()) == bytes);
}

TEST_CASE("a change of prices migrates too, to the schema of a new library") {
    const Scratch scratch;
    copy_first_schema(scratch);
    make_starter(scratch.file("new"));
    Library(scratch.library()).put_parts({}, OtherRows::end, {"estimator", "empty"});
    const char* schema = "SELECT group_concat(sql, ';') FROM "
                         "(SELECT sql FROM sqlite_schema ORDER BY type, name)";
    CHECK(ask(scratch.library(), schema) == ask(scratch.file("new"), schema));
}

TEST_CASE("faults of stored jobs are found") {
    const Scratch scratch;
    make_starter(scratch.library());
    Library(scratch.library()).add_job(sample_job());
    const std::pair<const char*, const char*> faults[] = {
        {"DELETE FROM job_rows; INSERT INTO job_rows VALUES (1, 1, 'rates', 'shop', '{')",
         "cells: rates/shop of job 1 cannot be read"},
        {"UPDATE job_revisions SET sent_at = '2026-11-24T09:30:00Z'",
         "job 1, revision 1 was sent without documents"},
        {"INSERT INTO job_revisions SELECT job, 3, request, estimate, prices_issue, rules_issue, "
         "price, currency, due, demo_data, saved_at, person, sent_at FROM job_revisions",
         "job 1 has 2 revisions up to 3"},
        {"DELETE FROM job_states", "job 1 has no revision or no state"},
        {"UPDATE job_states SET day = 'soon'", "a job's day is 'soon'"}};
    for (const auto& [statement, words] : faults) {
        CAPTURE(statement);
        std::filesystem::copy_file(scratch.library(), scratch.file("b"),
                                   std::filesystem::copy_options::overwrite_existing);
        tamper(scratch.file("b"), statement);
        const auto found = check_library(scratch.file("b"));
        REQUIRE_FALSE(found.empty());
        CHECK_THAT(found.front(), Catch::Contains(words));
    }
    CHECK_THROWS_WITH(Library(scratch.file("b")).job(1), Catch::Contains("is damaged"));
}
