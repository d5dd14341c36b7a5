#include <filesystem>

#include <fmt/format.h>

#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/request_input.h"
#include "app/saved_job.h"
#include "catalog/cells/table.h"
#include "catalog/exchange/job_file.h"
#include "catalog/library/used_rows.h"
#include "pricing/values/faults.h"

namespace backplate {

int run_jobs_export(const JobFile& arguments, const CommonArguments& common) {
    const Job job = open_jobs(common.library).job(job_number(arguments.number));
    write_file(arguments.file, job_text(job));
    print_job(job, "written to " + arguments.file, common.json, {{"file", arguments.file}});
    return done;
}

/// The job gets the next number of this library; its issues stay those of the library that priced
/// it, which the origin says.
int run_jobs_import(const std::string& file, const CommonArguments& common) {
    const std::string shown = file == "-" ? "standard input" : file;
    Job job = read_job_text(shown, read_text(file));
    try {
        for (const JobRevision& revision : job.revisions) require_readable(revision.rows);
    } catch (const OutsideFault& fault) {
        throw BadInput(shown + ": used rows: " + fault.what());
    }
    const int number = job.number;
    job.origin =
        fmt::format("job {} of {}", number, std::filesystem::path(shown).filename().string());
    job = open_jobs(common.library).add_job(std::move(job));
    print_job(job, fmt::format("was job {} in {}", number, shown), common.json,
              {{"origin", job.origin}});
    return done;
}

} // namespace backplate
