#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "catalog/library/versions.h"
#include "pricing/book/part.h"
#include "pricing/book/rule_tables.h"
#include "pricing/job/saved_job.h"

namespace backplate {

/// What stands in a library: one issue of the prices and one of the rules.
struct LibraryContent {
    std::vector<Part> parts; ///< in the order of their keys
    int prices_issue = 1;
    RuleTables rules; ///< with their issue
};

/// A saved job in a list.
struct JobHead {
    int number = 0, revision = 1;
    std::string title;
    JobState state = JobState::enquiry;
    std::string due, price, currency; ///< due, price: empty: none
    bool demo_data = false;
};

/// A library file: parts and rule rows in versions, each change one change set, and saved jobs. A
/// library of an earlier schema is brought up to date with the first change that is made in it;
/// until then it holds no jobs. A change is whole
/// or not at all, also when the program is killed. Every function throws OutsideFault naming the
/// file where it is locked, full, unreadable or damaged.
class Library {
public:
    /// Opens a file that exists; another program's or a newer one is refused and stays untouched.
    explicit Library(std::string path);
    ~Library();
    Library(Library&&) noexcept;
    Library& operator=(Library&&) noexcept;

    /// Makes a file with this content as change set 1, and the folders above it. A library that
    /// stands there already stays as it is.
    static void make(const std::string& path, const LibraryContent& content,
                     const ChangeNote& note);

    /// Parts and rules of one moment.
    LibraryContent read() const;

    /// Adds the parts and replaces those of the same keys; the keys are unique.
    ChangeSummary put_parts(const std::vector<Part>& parts, OtherRows others,
                            const ChangeNote& note);

    /// Puts the parts that `change` gives for the content as it stands, as put_parts does; parts
    /// that it does not give stay. What it throws leaves the library as it was.
    ChangeSummary
    change_parts(const std::function<std::vector<Part>(const LibraryContent&)>& change,
                 const ChangeNote& note);

    /// Puts what `change` makes of the rules as they stand in their place. What it throws leaves
    /// the library as it was.
    ChangeSummary change_rules(const std::function<RuleTables(const RuleTables&)>& change,
                               const ChangeNote& note);

    /// All saved jobs in the order of their numbers.
    std::vector<JobHead> jobs() const;
    /// Throws BadInput where there is no such job.
    Job job(int number) const;
    /// Adds the job under the next number and returns it with that number.
    Job add_job(Job job);
    /// Puts what `change` makes of the job in its place and returns it. What `change` throws leaves
    /// the library as it was; so does the attempt to change a revision that was sent, an
    /// OutsideFault. Throws BadInput where there is no such job.
    Job change_job(int number, const std::function<void(Job&)>& change);

private:
    std::string path_;
    std::unique_ptr<SQLite::Database> database_;
};

} // namespace backplate
