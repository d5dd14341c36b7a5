#include <filesystem>

#include <fmt/format.h>
#include <unistd.h>

#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/priced_revision.h"
#include "app/saved_job.h"
#include "catalog/cells/table.h"
#include "catalog/library/passing_file.h"
#include "pricing/values/faults.h"
#include "reports/drawing/drawing_file.h"
#include "reports/drawing/sheets.h"
#include "reports/wording.h"
#include "reports/workbook/workbook.h"

namespace backplate {
namespace {

/// What forbids to send, in words; empty: nothing.
std::string forbidden(const Job& job, const PricedRevision& priced, const RuleBook& rules) {
    std::string text;
    for (const Finding& finding : priced.estimate.findings)
        if (finding.severity == Severity::stop)
            text += "\n  " + finding.code + ": " + finding_text(finding, rules);
    if (!text.empty()) return "a stop forbids it:" + text;
    if (!priced.estimate.buildable) return "nothing in the price book builds it";
    if (priced.revision.price != job.latest().price)
        return fmt::format("the price was {} when it was saved and is {} today; jobs reprice {} "
                           "says why, jobs save job:{} takes today's",
                           price_line(job.latest()), price_line(priced.revision), job.number,
                           job.number);
    return {};
}

/// What a writer writes into a file of this ending, as bytes.
template <class Write> std::string bytes_of(const char* ending, const Write& write) {
    const PassingFile file(
        (std::filesystem::temp_directory_path() / fmt::format("backplate-{}{}", ::getpid(), ending))
            .string());
    write(file.path());
    return read_file(file.path());
}

/// The client's edition, the internal workbook and the drawing under the names that they are kept
/// by.
std::vector<SentDocument> documents_of(const Job& job, const Estimate& estimate,
                                       const Inputs& inputs) {
    const RuleBook& rules = *inputs.rules;
    Work work;
    const FoundSteps steps = asked_price_steps(estimate, *inputs.prices, rules, work);
    const std::string base = fmt::format("job-{}-revision-{}", job.number, job.latest().number);
    return {{base + "-client.xlsx", bytes_of(".xlsx",
                                             [&](const std::string& path) {
                                                 write_client_workbook(estimate, rules, path,
                                                                       false);
                                             })},
            {base + "-drawing.pdf", bytes_of(".pdf",
                                             [&](const std::string& path) {
                                                 write_drawing(drawing_sheets(estimate, false),
                                                               estimate.request.title,
                                                               estimate.request.date, path);
                                             })},
            {base + "-internal.xlsx", bytes_of(".xlsx", [&](const std::string& path) {
                 write_workbook(estimate, rules, path, steps);
             })}};
}

} // namespace

int run_jobs_send(const SendJob& arguments, const CommonArguments& common) {
    const int number = job_number(arguments.number);
    const Stamp when = stamp(arguments.date);
    const Inputs inputs = load_inputs(common.library);
    Library library = open_jobs(common.library);
    const Job seen = library.job(number);
    Job tried = seen; // says why a job that is sent, won … cannot be sent before anything is made
    send(tried, seen.latest(), {}, when);
    const PricedRevision priced =
        priced_revision(request_text(fmt::format("job:{}", number), inputs), inputs);
    if (const auto why = forbidden(seen, priced, *inputs.rules); !why.empty()) {
        fmt::print(stderr, "backplate: job {}: is not sent: {}\n", number, why);
        return not_as_asked;
    }
    const auto documents = documents_of(seen, priced.estimate, inputs);
    const Job job = library.change_job(number, [&](Job& changed) {
        if (!(changed == seen))
            throw BadInput(fmt::format("job {}: was changed meanwhile; expected to be sent as it "
                                       "was looked at, try again",
                                       number));
        send(changed, priced.revision, documents, when);
    });
    nlohmann::ordered_json files = nlohmann::ordered_json::array();
    if (!arguments.into.empty()) files = write_as_sent(number, job.latest(), arguments.into);
    print_job(job, "sent, frozen", common.json, {{"files", files}});
    return done;
}

} // namespace backplate
