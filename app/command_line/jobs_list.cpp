#include <algorithm>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/counted.h"
#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/command_line/unknown_name.h"
#include "app/job_saving.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

bool holds(const JobHead& job, const JobQuery& query) {
    return (query.state.empty() || query.state == state_word(job.state)) &&
           holds_words(job, query.texts);
}

Json job_json(const JobHead& job) {
    return {{"number", job.number},
            {"title", job.title},
            {"state", state_word(job.state)},
            {"revision", job.revision},
            {"due", text_or_null(job.due)},
            {"price", text_or_null(job.price)},
            {"currency", text_or_null(job.currency)},
            {"demo_data", job.demo_data}};
}

void print_row(const JobHead& job) {
    fmt::print("{:>6}  {:<10}  {:>8}  {:<10}  {:>16}  {}{}\n", job.number, state_word(job.state),
               job.revision, job.due.empty() ? "-" : job.due,
               job.price.empty() ? "not buildable" : job.price + " " + job.currency,
               shown_title(job.title), job.demo_data ? " (demo data)" : "");
}

} // namespace

int run_jobs_list(const JobQuery& query, const CommonArguments& common) {
    if (!query.state.empty() && !find_state(query.state))
        refuse_unknown(query.state, "state of a job", state_words());
    const auto all = open_jobs(common.library).jobs();
    std::vector<JobHead> found;
    std::ranges::copy_if(all, std::back_inserter(found),
                         [&](const JobHead& job) { return holds(job, query); });
    if (common.json) {
        Json list = Json::array();
        for (const JobHead& job : found) list.push_back(job_json(job));
        fmt::print("{}\n", Json{{"jobs", list}}.dump(2));
        return done;
    }
    if (!found.empty())
        fmt::print("{:>6}  {:<10}  {:>8}  {:<10}  {:>16}  {}\n", "number", "state", "revision",
                   "due", "price", "title");
    for (const JobHead& job : found) print_row(job);
    fmt::print("{} of {}\n", found.size(), counted(all.size(), "job"));
    return done;
}

} // namespace backplate
