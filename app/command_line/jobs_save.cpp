#include <fmt/format.h>

#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/command_line/priced_revision.h"
#include "app/command_line/saved_job.h"
#include "catalog/exchange/estimate_file.h"
#include "catalog/exchange/request_json.h"
#include "pricing/job/inherited.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

/// The job to be changed; nothing: a new one. A saved job is saved into itself alone, for another
/// number would lose what is to be confirmed.
std::optional<int> wanted_number(const SaveJob& arguments) {
    const auto source = job_reference(arguments.request);
    std::optional<int> number;
    if (!arguments.number.empty()) number = job_number(arguments.number);
    if (!source) return number;
    if (number && *number != source->number)
        throw BadInput(fmt::format("{}: cannot be saved as job {}; expected jobs copy, which makes "
                                   "a job out of another",
                                   arguments.request, *number));
    return source->number;
}

/// A title by hand, or that of the request as long as nobody gave another one.
std::string title_of(const Job& job, const SaveJob& arguments, const Estimate& estimate) {
    if (arguments.title) return *arguments.title;
    const auto before = read_estimate("the saved estimate", job.latest().estimate);
    return job.title == before.title ? estimate.request.title : job.title;
}

std::optional<Inherited> inherited_by(const Job& job, const std::vector<InheritedValue>& now) {
    const auto open = still_unconfirmed(job, now);
    if (!job.copied_from || open.empty()) return std::nullopt;
    return inherited_from(job.copied_from->job, open);
}

} // namespace

int run_jobs_save(const SaveJob& arguments, const CommonArguments& common) {
    const auto number = wanted_number(arguments);
    const Stamp when = stamp(arguments.date);
    const Inputs inputs = load_inputs(common.library);
    Library library = open_jobs(common.library);
    RequestText given = request_text(arguments.request, inputs);
    const auto now = inherited_values(parse_json(given.shown, given.text).root);
    if (number) {
        const Job job = library.job(*number);
        given.inherited = inherited_by(job, now);
        given.saved = saved_as(library, job, job.latest());
    }
    const PricedRevision priced = priced_revision(given, inputs);
    if (!number) {
        const std::string title = arguments.title.value_or(priced.estimate.request.title);
        const Job job = library.add_job(new_job(title, priced.revision, when));
        print_job(job, "saved", common.json);
    } else {
        const Job job = library.change_job(*number, [&](Job& changed) {
            const std::string title = title_of(changed, arguments, priced.estimate);
            save_work(changed, priced.revision, now, when);
            changed.title = title;
        });
        print_job(job, "saved", common.json);
    }
    return priced.estimate.buildable ? done : not_as_asked;
}

} // namespace backplate
