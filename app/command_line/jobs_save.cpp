#include <fmt/format.h>

#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/job_saving.h"
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
        const Job job = save_into_job(library, *number, priced, now, {}, arguments.title, when);
        print_job(job, "saved", common.json);
    }
    return priced.estimate.buildable ? done : not_as_asked;
}

} // namespace backplate
