#include "app/saved_job.h"

#include <charconv>
#include <chrono>

#include <fmt/chrono.h>
#include <fmt/format.h>

#include "app/request_input.h"
#include "app/stored_data.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr std::string_view prefix = "job:";

std::optional<int> whole(std::string_view text) {
    int number = 0;
    const char* end = text.data() + text.size();
    const auto [stop, fault] = std::from_chars(text.data(), end, number);
    if (fault != std::errc{} || stop != end || number < 1) return std::nullopt;
    return number;
}

} // namespace

std::optional<JobReference> job_reference(const std::string& name) {
    if (!name.starts_with(prefix)) return std::nullopt;
    const std::string_view rest = std::string_view(name).substr(prefix.size());
    const auto slash = rest.find('/');
    const auto number = whole(rest.substr(0, slash));
    std::optional<int> revision;
    if (slash != std::string_view::npos) revision = whole(rest.substr(slash + 1));
    if (!number || (slash != std::string_view::npos && !revision))
        throw BadInput("'" + name + "' names no job; expected job:NUMBER or job:NUMBER/REVISION");
    return JobReference{*number, revision};
}

JobReference job_named(const std::string& text) {
    const auto reference = job_reference(text);
    return reference ? *reference : JobReference{job_number(text), std::nullopt};
}

int job_number(const std::string& text) {
    const auto number =
        whole(text.starts_with(prefix) ? std::string_view(text).substr(prefix.size()) : text);
    if (!number) throw BadInput("'" + text + "' is no job; expected a number that jobs list shows");
    return *number;
}

Library open_jobs(const std::string& library) {
    if (is_starter(library))
        throw BadInput("--library :starter: holds no saved jobs; expected a library file");
    return open_library(library);
}

const JobRevision& revision_named(const Job& job, const JobReference& reference) {
    if (!reference.revision) return job.latest();
    if (const JobRevision* found = job.revision(*reference.revision)) return *found;
    throw BadInput(fmt::format("job {} has no revision {}; expected 1 to {}", job.number,
                               *reference.revision, job.latest().number));
}

Date stated_day(const std::string& date) {
    const auto day = date.empty() ? std::optional(today()) : Date::parse(date);
    if (!day) throw BadInput("--date: '" + date + "' is no day, expected one as 2026-11-24");
    return *day;
}

Stamp stamp(const std::string& date) {
    const Date day = stated_day(date);
    if (day > today())
        throw BadInput("--date: " + date + " is still to come; expected a day up to " +
                       today().text());
    const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
    return {fmt::format("{:%Y-%m-%dT%H:%M:%SZ}",
                        fmt::gmtime(std::chrono::system_clock::to_time_t(now))),
            user_name(), day};
}

} // namespace backplate
