#include <fmt/format.h>

#include "app/command_line/counted.h"
#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/job_saving.h"

namespace backplate {

/// The copy is written anew, without the comments of the other job, and priced with today's prices
/// and rules.
int run_jobs_copy(const JobWords& arguments, const CommonArguments& common) {
    const int number = job_number(arguments.number);
    const Inputs inputs = load_inputs(common.library);
    Library library = open_jobs(common.library);
    const Job job = copy_as_job(library, inputs, number, arguments.text);
    const int revision = job.copied_from->revision;
    print_job(job,
              fmt::format("copy of job {}, revision {}: {} to be confirmed (jobs confirm {})",
                          number, revision, counted(job.unconfirmed.size(), "value"), job.number),
              common.json, {{"copied_from", {{"job", number}, {"revision", revision}}}});
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
