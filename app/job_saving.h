#pragma once

#include <memory>
#include <set>

#include "app/priced_revision.h"
#include "app/saved_job.h"

namespace backplate {

/// A saved job that is being worked on.
struct OpenJob {
    Job job;
    SavedAs saved;

    /// "job:3"
    std::string place() const { return "job:" + std::to_string(job.number); }
};

/// Whether number, title, state, due date and price of a job hold every one of the words, in any
/// case.
bool holds_words(const JobHead& job, const std::vector<std::string>& words);

/// The job with its last revision. Throws BadInput where there is none, or where another revision
/// is named, which nobody may change.
std::shared_ptr<const OpenJob> open_job(const std::string& library, const JobReference& named);

/// Puts a priced state into the job as its revision in work; `now`: the values of its request,
/// `confirmed`: those of the inherited ones that were confirmed. Without a title by hand the job
/// keeps the one that somebody gave it, else it follows the request.
Job save_into_job(Library& library, int number, const PricedRevision& priced,
                  const std::vector<InheritedValue>& now, const std::set<std::string>& confirmed,
                  const std::optional<std::string>& title, const Stamp& when);

/// What is to be confirmed of a job whose request holds the values `now`, for the estimate.
std::optional<Inherited> inherited_by(const Job& job, const std::vector<InheritedValue>& now);

/// A new job out of the last revision of another one, priced with these inputs; all its values are
/// to be confirmed. Empty title: that of the other job.
Job copy_as_job(Library& library, const Inputs& inputs, int number,
                const std::optional<std::string>& title);

} // namespace backplate
