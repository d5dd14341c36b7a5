#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/command_line/unknown_name.h"
#include "app/saved_job.h"
#include "pricing/values/faults.h"

namespace backplate {

int run_jobs_outcome(const JobOutcome& arguments, const CommonArguments& common) {
    const int number = job_number(arguments.number);
    const auto outcome = find_state(arguments.outcome);
    if (!outcome) refuse_unknown(arguments.outcome, "outcome", {"won", "lost", "withdrawn"});
    const Date day = stated_day(arguments.date);
    const Job job = open_jobs(common.library).change_job(number, [&](Job& changed) {
        record_outcome(changed, *outcome, day, arguments.reason, stamp());
    });
    print_job(job, "on " + day.text(), common.json);
    return done;
}

} // namespace backplate
