#pragma once

#include <algorithm>
#include <string>

#include "pricing/job/saved_job.h"

namespace backplate {

inline Stamp stamp_on(int day) {
    return {"2026-11-24T09:30:00Z", "estimator", Date::of(2026, 11, day)};
}

/// A revision with this request; the library keeps its texts as they are.
inline JobRevision sample_revision(const std::string& request) {
    JobRevision revision;
    revision.request = request;
    revision.estimate = "estimate of " + request;
    revision.prices_issue = 4;
    revision.rules_issue = 2;
    revision.price = "82.50";
    revision.currency = "EUR";
    revision.due = "2026-12-01";
    revision.demo_data = true;
    revision.rows = {{"parts", "M", R"({"key":"M"})"}, {"rates", "shop", R"({"value":"52"})"}};
    return revision;
}

inline Job sample_job(const std::string& title = "Kiln") {
    return new_job(title, sample_revision("// as given\n{}"), stamp_on(1));
}

inline const SentDocument sample_document{"quote.xlsx", std::string("PK\0\xff\x80\n", 6)};

/// On the 2nd, or on the day of the last state where that is later.
inline void send_sample(Job& job) {
    Stamp stamp = stamp_on(2);
    stamp.day = std::max(stamp.day, job.state().day);
    send(job, sample_revision("sent"), {sample_document}, stamp);
}

/// What tests/libraries/schema_002 was made with on the library of schema 1: a job that was sent
/// and is in work again, its copy with values to be confirmed, and a lost one.
template <class Library> void fill_schema_002(Library& library) {
    library.add_job(sample_job());
    library.change_job(1, send_sample);
    library.change_job(
        1, [](Job& job) { revise(job, sample_revision("second"), "more pumps", stamp_on(3)); });
    library.add_job(copy_of(library.job(1), sample_revision("copy"),
                            {{"/job/title", "\"Kiln\""}, {"/spare", ""}}, stamp_on(3)));
    library.add_job(sample_job("Pump station"));
    library.change_job(3, send_sample);
    library.change_job(3, [](Job& job) {
        record_outcome(job, JobState::lost, Date::of(2026, 11, 4), "price", stamp_on(5));
    });
}

} // namespace backplate
