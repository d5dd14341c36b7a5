#include "pricing/job/saved_job.h"

#include <catch2/catch.hpp>
#include <iostream>
#include <random>

using namespace backplate;

namespace {

Stamp on(int day) { return {"2026-11-24T09:30:00Z", "estimator", Date::of(2026, 11, day)}; }

JobRevision work(const std::string& request) {
    JobRevision revision;
    revision.request = request;
    revision.estimate = "estimate of " + request;
    revision.price = "100.00";
    return revision;
}

SentDocument workbook(const std::string& bytes) { return {"quote.xlsx", bytes}; }

Job saved() { return new_job("Kiln", work("a"), on(1)); }

Job sent() {
    Job job = saved();
    send(job, work("a"), {workbook("bytes")}, on(2));
    return job;
}

Job after(JobState outcome) {
    Job job = sent();
    record_outcome(job, outcome, Date::of(2026, 11, 3), "reason", on(4));
    return job;
}

JobState state(const Job& job) { return job.state().state; }

} // namespace

TEST_CASE("a job is an enquiry, then it is estimated") {
    Job job = saved();
    CHECK(state(job) == JobState::enquiry);
    save_work(job, work("b"), {}, on(2));
    CHECK(state(job) == JobState::estimating);
    save_work(job, work("c"), {}, on(2));
    CHECK(job.states.size() == 2);
    CHECK(job.revisions.size() == 1);
    CHECK(job.latest().request == "c");
    CHECK(job.latest().person == "estimator");
}

TEST_CASE("what was sent takes no change") {
    Job job = sent();
    const Job before = job;
    CHECK_THROWS_WITH(save_work(job, work("b"), {}, on(3)),
                      Catch::Contains("was sent and never changes; expected") &&
                          Catch::Contains("jobs revise"));
    CHECK_THROWS_AS(send(job, work("b"), {}, on(3)), BadInput);
    CHECK_THROWS_AS(confirm(job, {}), BadInput);
    CHECK(job == before);
}

TEST_CASE("a revision is opened after sending and keeps the one before") {
    Job job = sent();
    const JobRevision first = job.revisions[0];
    revise(job, job.latest(), "two more pumps", on(5));
    save_work(job, work("b"), {}, on(6));
    REQUIRE(job.revisions.size() == 2);
    CHECK(job.revisions[0] == first);
    CHECK(job.revisions[1].number == 2);
    CHECK_FALSE(job.latest().sent());
    CHECK(job.latest().documents.empty());
    CHECK(state(job) == JobState::estimating);
    CHECK_THROWS_WITH(revise(job, job.latest(), "", on(7)), Catch::Contains("is not sent yet"));
}

TEST_CASE("only sensible changes of state") {
    using enum JobState;
    struct Row {
        JobState from, to;
        bool reason;
        const char* words; ///< null: taken
    };
    const Row rows[] = {
        {sent, won, false, nullptr},
        {sent, lost, true, nullptr},
        {sent, lost, false, "expected --reason for lost"},
        {sent, withdrawn, true, nullptr},
        {enquiry, withdrawn, true, nullptr},
        {estimating, withdrawn, true, nullptr},
        {estimating, withdrawn, false, "expected --reason for withdrawn"},
        {enquiry, won, true, "was not sent; expected jobs send"},
        {estimating, lost, true, "was not sent; expected jobs send"},
        {won, lost, true, nullptr},
        {won, lost, false, "is won; expected --reason"},
        {lost, won, false, "is lost; expected --reason"},
        {won, won, true, "is won already"},
        {withdrawn, won, true, "is withdrawn; expected jobs revise"},
        {sent, enquiry, true, "'enquiry' is no outcome; expected won, lost or withdrawn"},
    };
    for (const Row& row : rows) {
        CAPTURE(state_word(row.from), state_word(row.to), row.reason);
        const std::string text = refused_outcome(row.from, row.to, row.reason);
        if (row.words)
            CHECK_THAT(text, Catch::Contains(row.words));
        else
            CHECK(text.empty());
    }
}

TEST_CASE("an outcome lies between the sending and today") {
    Job job = sent(); // on the 2nd
    CHECK_THROWS_WITH(record_outcome(job, JobState::won, Date::of(2026, 11, 1), "", on(9)),
                      Catch::Contains("2026-11-01 is too early; expected a day from 2026-11-02"));
    CHECK_THROWS_WITH(record_outcome(job, JobState::won, Date::of(2026, 11, 10), "", on(9)),
                      Catch::Contains("still to come; expected a day up to 2026-11-09"));
    record_outcome(job, JobState::won, Date::of(2026, 11, 9), "", on(9));
    CHECK(state(job) == JobState::won);
    CHECK_THROWS_WITH(revise(job, job.latest(), "", on(9)), Catch::Contains("jobs copy"));
}

TEST_CASE("no state comes before the last one") {
    Job job = new_job("Kiln", work("a"), on(5));
    const Job before = job;
    CHECK_THROWS_WITH(save_work(job, work("b"), {}, on(4)),
                      Catch::Contains("2026-11-04 is too early; expected a day from 2026-11-05"));
    CHECK_THROWS_AS(send(job, work("b"), {}, on(4)), BadInput);
    CHECK(job == before);
    send(job, work("b"), {}, on(5));
    CHECK(state(job) == JobState::sent);
}

TEST_CASE("a lost or withdrawn job may be taken up again") {
    for (const JobState outcome : {JobState::lost, JobState::withdrawn}) {
        Job job = after(outcome);
        CHECK_THROWS_AS(save_work(job, work("b"), {}, on(5)), BadInput);
        revise(job, job.latest(), "client came back", on(5));
        CHECK(state(job) == JobState::estimating);
    }
}

TEST_CASE("inherited values stay until they are confirmed or changed") {
    const std::vector<InheritedValue> inherited{{"/boxes/0/points/DI/count", "48"},
                                                {"/job/client", "\"Nil\""},
                                                {"/spare", ""},
                                                {"/spare/percent", "20"},
                                                {"/sparex", "1"}};
    Job job = copy_of(sent(), work("copy"), inherited, on(3));
    CHECK(job.copied_from == Template{0, 1});
    CHECK(state(job) == JobState::enquiry);
    save_work(job, work("copy 2"),
              {{"/boxes/0/points/DI/count", "50"}, {"/job/client", "\"Nil\""}, {"/sparex", "1"}},
              on(3));
    CHECK(job.unconfirmed == std::vector<InheritedValue>{
                                 {"/job/client", "\"Nil\""}, {"/spare", ""}, {"/sparex", "1"}});
    CHECK_THROWS_WITH(confirm(job, {"/job/clien"}), Catch::Contains("'/job/clien' is nothing"));
    CHECK(confirm(job, {"/spare"}) == std::vector<InheritedValue>{{"/spare", ""}});
    CHECK(confirm(job, {}).size() == 2);
    CHECK(job.unconfirmed.empty());
}

TEST_CASE("whatever happens to a job and its copies, sent revisions stay") {
    std::mt19937 random(7);
    const auto below = [&](unsigned count) { return random() % count; };
    int acts = 0, frozen = 0;
    for (int run = 0; run < 400; ++run) {
        const Job original = sent();
        Job copy = copy_of(original, work("copy"), {{"/a", "1"}}, on(3));
        Job job = original;
        std::vector<JobRevision> kept{job.latest()};
        for (int step = 0; step < 30; ++step, ++acts) {
            Job& one = below(2) ? job : copy;
            try {
                switch (below(5)) {
                case 0: save_work(one, work(std::to_string(step)), {}, on(10)); break;
                case 1: revise(one, work(std::to_string(step)), "", on(10)); break;
                case 2: send(one, work(std::to_string(step)), {workbook("w")}, on(10)); break;
                case 3:
                    record_outcome(one, static_cast<JobState>(3 + below(3)), Date::of(2026, 11, 10),
                                   "reason", on(10));
                    break;
                default: confirm(one, {});
                }
            } catch (const BadInput&) {
            }
            if (&one == &job && job.latest().sent() && !(job.latest() == kept.back()))
                kept.push_back(job.latest());
            for (const JobRevision& revision : kept)
                REQUIRE(*job.revision(revision.number) == revision);
        }
        frozen += static_cast<int>(kept.size());
        REQUIRE(original == sent());
    }
    std::cout << acts << " acts on jobs judged, " << frozen << " sent revisions\n";
    CHECK(frozen > 600);
}
