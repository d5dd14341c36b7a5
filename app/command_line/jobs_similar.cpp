#include <algorithm>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/counted.h"
#include "app/command_line/jobs.h"
#include "app/command_line/jobs_report.h"
#include "app/priced_revision.h"
#include "app/saved_job.h"
#include "catalog/exchange/estimate_file.h"
#include "pricing/job/similar.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;

/// A saved job beside the one asked for.
struct PastJob {
    int number = 0, revision = 1;
    std::string title;
    StateChange state;
    EstimateRecord record;
    JobMeasures measures;
    Percent alike;
};

/// The revision that was sent last, else the one in work.
const JobRevision& told_revision(const Job& job) {
    for (auto revision = job.revisions.rbegin(); revision != job.revisions.rend(); ++revision)
        if (revision->sent()) return *revision;
    return job.latest();
}

PastJob past_job(const Job& job, const EstimateRecord& asked) {
    const JobRevision& revision = told_revision(job);
    PastJob past{job.number, revision.number, job.title, job.state(), {}, {}, {}};
    past.record = read_estimate(
        fmt::format("job:{}/{}: saved estimate", job.number, revision.number), revision.estimate);
    past.measures = measures_of(past.record);
    past.alike = points_in_common(past.record, asked);
    return past;
}

/// Jobs with points in common, the likest first; of equal ones the later first.
std::vector<PastJob> similar_jobs(const Library& library, const EstimateRecord& asked,
                                  std::optional<int> itself) {
    std::vector<PastJob> jobs;
    for (const JobHead& head : library.jobs()) {
        if (head.number == itself) continue;
        PastJob past = past_job(library.job(head.number), asked);
        if (past.alike > Percent{}) jobs.push_back(std::move(past));
    }
    std::ranges::sort(jobs, [](const PastJob& one, const PastJob& other) {
        return one.alike == other.alike ? one.number > other.number : one.alike > other.alike;
    });
    return jobs;
}

std::string amount(const EstimateRecord& record, const std::optional<Money>& value) {
    return value && record.priced ? value->text(record.priced->digits) : "";
}

std::optional<Money> price_of(const EstimateRecord& record) {
    return record.priced ? std::optional(record.priced->price) : std::nullopt;
}

/// Hours of a bid that was lost say nothing about the work.
std::string hours_text(const PastJob& past) {
    const bool kept = past.state.state != JobState::lost && past.state.state != JobState::withdrawn;
    return kept && past.measures.hours_per_point ? past.measures.hours_per_point->text() : "";
}

Json figures_json(const EstimateRecord& record, const JobMeasures& measures) {
    return {{"points", measures.points},
            {"price", text_or_null(amount(record, price_of(record)))},
            {"currency", text_or_null(record.priced ? record.priced->currency : "")},
            {"demo_data", record.demo_data},
            {"price_per_point", text_or_null(amount(record, measures.per_point))}};
}

void print_json(const EstimateRecord& asked, const std::vector<PastJob>& jobs, std::size_t count) {
    Json list = Json::array();
    for (std::size_t i = 0; i < count; ++i) {
        Json object{{"number", jobs[i].number},
                    {"title", jobs[i].title},
                    {"state", state_word(jobs[i].state.state)},
                    {"date", jobs[i].state.day.text()},
                    {"revision", jobs[i].revision},
                    {"points_in_common_percent", Json::parse(jobs[i].alike.text())}};
        object.update(figures_json(jobs[i].record, jobs[i].measures));
        const std::string hours = hours_text(jobs[i]);
        object["hours_per_point"] = hours.empty() ? Json(nullptr) : Json::parse(hours);
        list.push_back(std::move(object));
    }
    const Json object{{"request", figures_json(asked, measures_of(asked))},
                      {"jobs", list},
                      {"found", jobs.size()}};
    fmt::print("{}\n", object.dump(2));
}

std::string one_decimal(Percent value) {
    constexpr std::int64_t tenth = 1000; // steps of Percent
    return steps_text(multiply_divide(value.steps(), 1, tenth, Rounding::half_away), 1);
}

void print_row(const std::string& name, const std::string& state, const std::string& alike,
               const EstimateRecord& record, const JobMeasures& measures, const std::string& hours,
               const std::string& title) {
    const auto shown = [](const std::string& text) { return text.empty() ? "-" : text; };
    const std::string currency = record.priced ? " " + record.priced->currency : "";
    fmt::print("{:>6}  {:<21}  {:>8}  {:>6}  {:>16}  {:>10}  {:>8}  {}{}\n", name, state, alike,
               measures.points, shown(amount(record, price_of(record))) + currency,
               shown(amount(record, measures.per_point)), shown(hours), shown_title(title),
               record.demo_data ? " (demo data)" : "");
}

void print_text(const EstimateRecord& asked, const std::vector<PastJob>& jobs, std::size_t count) {
    const JobMeasures measures = measures_of(asked);
    fmt::print("{:>6}  {:<21}  {:>8}  {:>6}  {:>16}  {:>10}  {:>8}  {}\n", "number", "state",
               "common %", "points", "price", "per point", "h/point", "title");
    print_row("this", "", "", asked, measures,
              measures.hours_per_point ? measures.hours_per_point->text() : "", asked.title);
    for (std::size_t i = 0; i < count; ++i) {
        const PastJob& past = jobs[i];
        print_row(std::to_string(past.number),
                  fmt::format("{} {}", state_word(past.state.state), past.state.day.text()),
                  one_decimal(past.alike), past.record, past.measures, hours_text(past),
                  past.title);
    }
    fmt::print("{} of {} with points in common; prices are those of their day\n", count,
               counted(jobs.size(), "job"));
}

} // namespace

int run_jobs_similar(const SimilarJobs& arguments, const CommonArguments& common) {
    const Inputs inputs = load_inputs(common.library);
    const Library library = open_jobs(common.library);
    const auto itself = job_reference(arguments.request);
    const RequestText given = request_text(arguments.request, inputs);
    const EstimateRecord asked =
        read_estimate("the estimate", priced_revision(given, inputs).revision.estimate);
    const auto jobs =
        similar_jobs(library, asked, itself ? std::optional(itself->number) : std::nullopt);
    const std::size_t count = std::min(jobs.size(), static_cast<std::size_t>(arguments.most));
    common.json ? print_json(asked, jobs, count) : print_text(asked, jobs, count);
    return done;
}

} // namespace backplate
