#pragma once

#include <optional>
#include <string>

#include "catalog/library/library.h"

namespace backplate {

/// `job:3`, or one revision of it: `job:3/1`.
struct JobReference {
    int number = 0;
    std::optional<int> revision;
};

/// Nothing where the name does not begin with `job:`; throws BadInput where what follows names no
/// job.
std::optional<JobReference> job_reference(const std::string& name);

/// "3", "job:3" or "job:3/1". Throws BadInput.
JobReference job_named(const std::string& text);

/// "3" or "job:3". Throws BadInput.
int job_number(const std::string& text);

/// The library that holds the saved jobs; the starter data hold none, a BadInput.
Library open_jobs(const std::string& library);

/// The revision that is named, else the last one. Throws BadInput where there is none.
const JobRevision& revision_named(const Job& job, const JobReference& reference);

/// The day that --date states, empty: today. Throws BadInput where it is no day.
Date stated_day(const std::string& date);

/// Now, by the user's name, for what happened on that day. Throws BadInput as stated_day does, and
/// for a day still to come.
Stamp stamp(const std::string& date = "");

} // namespace backplate
