#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/counted.h"
#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/priced_revision.h"
#include "app/saved_job.h"
#include "catalog/exchange/estimate_file.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

Json documents_json(const JobRevision& revision) {
    Json list = Json::array();
    for (const SentDocument& document : revision.documents)
        list.push_back({{"name", document.name}, {"bytes", document.bytes.size()}});
    return list;
}

Json revision_json(const JobRevision& revision) {
    return {{"revision", revision.number},
            {"saved_at", revision.saved_at},
            {"person", revision.person},
            {"sent_at", text_or_null(revision.sent_at)},
            {"due", text_or_null(revision.due)},
            {"price", text_or_null(revision.price)},
            {"currency", text_or_null(revision.currency)},
            {"demo_data", revision.demo_data},
            {"issue", {{"prices", revision.prices_issue}, {"rules", revision.rules_issue}}},
            {"rows", revision.rows.size()},
            {"documents", documents_json(revision)}};
}

Json state_json(const StateChange& change) {
    return {{"revision", change.revision},
            {"state", state_word(change.state)},
            {"date", change.day.text()},
            {"reason", text_or_null(change.reason)},
            {"at", change.at},
            {"person", change.person}};
}

void print_json(const Job& job) {
    Json revisions = Json::array(), states = Json::array();
    for (const JobRevision& revision : job.revisions) revisions.push_back(revision_json(revision));
    for (const StateChange& change : job.states) states.push_back(state_json(change));
    Json copied = nullptr;
    if (job.copied_from)
        copied = {{"job", job.copied_from->job}, {"revision", job.copied_from->revision}};
    print_job(job, "", true,
              {{"origin", text_or_null(job.origin)},
               {"copied_from", copied},
               {"revisions", revisions},
               {"states", states}});
}

void print_revision(const JobRevision& revision) {
    fmt::print("  revision {}: {}, prices issue {}, rules issue {}, saved {} by {}{}\n",
               revision.number, price_line(revision), revision.prices_issue, revision.rules_issue,
               revision.saved_at, revision.person,
               revision.sent() ? ", sent " + revision.sent_at : "");
    for (const SentDocument& document : revision.documents)
        fmt::print("    {}, {}\n", document.name, counted(document.bytes.size(), "byte"));
}

void print_text(const Job& job) {
    print_job(job, job.latest().due.empty() ? "" : "due " + job.latest().due, false);
    if (!job.origin.empty())
        fmt::print("  came as {}; issues are those of the library that priced it\n", job.origin);
    if (job.copied_from)
        fmt::print("  copy of job {}, revision {}; {} to be confirmed\n", job.copied_from->job,
                   job.copied_from->revision, counted(job.unconfirmed.size(), "value"));
    for (const JobRevision& revision : job.revisions) print_revision(revision);
    for (const StateChange& change : job.states)
        fmt::print("  {} {}, revision {}, by {}{}\n", change.day.text(), state_word(change.state),
                   change.revision, change.person,
                   change.reason.empty() ? "" : ": " + change.reason);
}

/// A revision of the job by its number, or of any job as job:NUMBER or job:NUMBER/REVISION.
EstimateRecord record_of(const Library& library, const Job& job, const std::string& name) {
    const auto other = job_reference(name);
    const auto reference =
        other ? *other : *job_reference(fmt::format("job:{}/{}", job.number, name));
    const Job named = reference.number == job.number ? job : library.job(reference.number);
    const JobRevision& revision = revision_named(named, reference);
    return read_estimate(fmt::format("job:{}/{}: saved estimate", named.number, revision.number),
                         revision.estimate);
}

int print_difference(const Library& library, const Job& job,
                     const std::vector<std::string>& numbers, bool json) {
    const EstimateRecord before = record_of(library, job, numbers[0]),
                         after = record_of(library, job, numbers[1]);
    const auto changes = differences(in_boxes_of(before, after), after);
    Json list = Json::array();
    for (const RecordChange& change : changes) {
        list.push_back({{"what", change.what},
                        {"name", change.name},
                        {"before", text_or_null(change.before)},
                        {"after", text_or_null(change.after)}});
        if (!json)
            fmt::print("{:<12} {}: {} → {}\n", change.what, change.name,
                       change.before.empty() ? "-" : change.before,
                       change.after.empty() ? "-" : change.after);
    }
    if (json)
        print_job(job, "", true,
                  {{"before", numbers[0]}, {"after", numbers[1]}, {"changes", list}});
    return done;
}

int print_as_sent(const Job& job, const JobRevision& revision, const std::string& folder,
                  bool json) {
    if (!revision.sent())
        throw BadInput(fmt::format("job {}: revision {} was not sent; expected a sent one",
                                   job.number, revision.number));
    const auto paths = write_as_sent(job.number, revision, folder);
    if (json)
        print_job(job, "", true, {{"files", paths}});
    else
        for (const std::string& path : paths) fmt::print("{}\n", path);
    return done;
}

/// The last revision that was sent where none is named, else the last one.
const JobRevision& last_sent(const Job& job) {
    for (auto revision = job.revisions.rbegin(); revision != job.revisions.rend(); ++revision)
        if (revision->sent()) return *revision;
    return job.latest();
}

} // namespace

int run_jobs_show(const ShowJob& arguments, const CommonArguments& common) {
    const JobReference reference = job_named(arguments.number);
    const Library library = open_jobs(common.library);
    const Job job = library.job(reference.number);
    const JobRevision& named = revision_named(job, reference);
    if (!arguments.difference.empty())
        return print_difference(library, job, arguments.difference, common.json);
    if (!arguments.as_sent.empty())
        return print_as_sent(job, reference.revision ? named : last_sent(job), arguments.as_sent,
                             common.json);
    if (arguments.request)
        fmt::print("{}", named.request);
    else
        common.json ? print_json(job) : print_text(job);
    return done;
}

} // namespace backplate
