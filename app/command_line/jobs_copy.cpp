#include <fmt/format.h>

#include "app/command_line/counted.h"
#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/command_line/priced_revision.h"
#include "app/command_line/saved_job.h"
#include "catalog/exchange/request_json.h"
#include "pricing/job/inherited.h"

namespace backplate {

/// The copy is written anew, without the comments of the other job, and priced with today's prices
/// and rules.
int run_jobs_copy(const JobWords& arguments, const CommonArguments& common) {
    const int number = job_number(arguments.number);
    const Inputs inputs = load_inputs(common.library);
    Library library = open_jobs(common.library);
    const Job from = library.job(number);
    const std::string shown = fmt::format("job:{}", number);
    const Node request = template_request(parse_json(shown, from.latest().request).root);
    auto inherited = inherited_values(request);
    const int count = static_cast<int>(inherited.size());
    const PricedRevision priced = priced_revision(
        {shown, json_text(request), inherited_from(number, inherited), copy_to_be(from)}, inputs);
    Job job = copy_of(from, priced.revision, std::move(inherited), stamp());
    if (arguments.text) job.title = *arguments.text;
    job = library.add_job(std::move(job));
    print_job(job,
              fmt::format("copy of job {}, revision {}: {} to be confirmed (jobs confirm {})",
                          number, from.latest().number, counted(count, "value"), job.number),
              common.json,
              {{"copied_from", {{"job", number}, {"revision", from.latest().number}}}});
    return done;
}

int run_jobs_revise(const JobWords& arguments, const CommonArguments& common) {
    const int number = job_number(arguments.number);
    const Job job = open_jobs(common.library).change_job(number, [&](Job& changed) {
        revise(changed, changed.latest(), arguments.text.value_or(""), stamp());
    });
    print_job(job, fmt::format("opened; revision {} stays", job.latest().number - 1), common.json);
    return done;
}

} // namespace backplate
