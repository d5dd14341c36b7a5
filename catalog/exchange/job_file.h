#pragma once

#include <string>
#include <vector>

#include "pricing/job/saved_job.h"

namespace backplate {

/// A revision of this request and what was made of it; price, day and issues are those of the
/// estimate. Throws BadInput naming `name` where the text is no backplate-estimate/1.
JobRevision revision_of(const std::string& name, std::string request, std::string estimate,
                        std::vector<UsedRow> rows);

/// A job as one text for a colleague, backplate-job/1: every revision with the rows it used, the
/// states, what is to be confirmed, and the documents that were sent.
std::string job_text(const Job& job);

/// The job back, equal. Throws BadInput naming `name`, pointer and expectation for whatever a file
/// written by job_text could not hold; the used rows are not judged here.
Job read_job_text(const std::string& name, const std::string& text);

} // namespace backplate
