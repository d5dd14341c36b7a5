#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "pricing/values/date.h"
#include "pricing/values/faults.h"

namespace backplate {

enum class JobState { enquiry, estimating, sent, won, lost, withdrawn };

/// "enquiry", "estimating" …
std::string_view state_word(JobState state);
std::optional<JobState> find_state(std::string_view word);
/// The words in the order of a job's life, for messages.
std::vector<std::string> state_words();

/// When and by whom; the caller's clock. `at` is UTC: 2026-11-24T09:30:00Z.
struct Stamp {
    std::string at, person;
    Date day; ///< of what happens; of the user's calendar, today unless it is told later
};

struct StateChange {
    int revision = 1;
    JobState state = JobState::enquiry;
    Date day;
    std::string reason, at, person;
    friend bool operator==(const StateChange&, const StateChange&) = default;
};

/// A part (table "parts") or a rule row as it stood when a revision was priced.
struct UsedRow {
    std::string table, key;
    std::string cells; ///< JSON object of texts with sorted keys
    friend bool operator==(const UsedRow&, const UsedRow&) = default;
};

struct SentDocument {
    std::string name, bytes;
    friend bool operator==(const SentDocument&, const SentDocument&) = default;
};

struct JobRevision {
    int number = 1;
    std::string request;  ///< the text as it was given
    std::string estimate; ///< backplate-estimate/1
    int prices_issue = 1, rules_issue = 1;
    std::string price, currency; ///< price: as printed; empty where nothing builds it
    std::string due;             ///< a day; empty: none
    bool demo_data = false;
    std::string saved_at, person;
    std::string sent_at;                 ///< empty: not sent
    std::vector<UsedRow> rows;           ///< by table and key
    std::vector<SentDocument> documents; ///< of a sent revision
    bool sent() const { return !sent_at.empty(); }
    friend bool operator==(const JobRevision&, const JobRevision&) = default;
};

/// A value that came from the template and that nobody confirmed for this job.
struct InheritedValue {
    std::string field; ///< as inherited_values names it
    std::string value; ///< JSON text; empty: asked again whatever the template said
    friend bool operator==(const InheritedValue&, const InheritedValue&) = default;
};

struct Template {
    int job = 0, revision = 0;
    friend bool operator==(const Template&, const Template&) = default;
};

/// A saved job: at least one revision; all but the last one were sent or given up.
struct Job {
    int number = 0; ///< 0: not numbered yet
    std::string title;
    std::string origin; ///< of an imported job: where it came from
    std::optional<Template> copied_from;
    std::vector<JobRevision> revisions;
    std::vector<StateChange> states; ///< at least one, the last is the state
    std::vector<InheritedValue> unconfirmed;

    const JobRevision& latest() const { return revisions.back(); }
    const StateChange& state() const { return states.back(); }
    /// Null where there is no such revision.
    const JobRevision* revision(int wanted) const;
    friend bool operator==(const Job&, const Job&) = default;
};

// Rules over a job. Each throws BadInput saying which job, why not, and what would do; the job is
// then as it was.

/// A job as it is first saved; its revision gets number and stamp.
Job new_job(std::string title, JobRevision revision, const Stamp& stamp);

/// What is to be confirmed of a job once its request holds the values `now`: an inherited value
/// that is no longer among them was answered by the change, a question is not.
std::vector<InheritedValue> still_unconfirmed(const Job& job,
                                              const std::vector<InheritedValue>& now);

/// New working state of the last revision, which must not be sent, won, lost or withdrawn, on a day
/// from its last state on; `now`: the values of its request.
void save_work(Job& job, JobRevision revision, const std::vector<InheritedValue>& now,
               const Stamp& stamp);

/// A new job with the template's last revision and every value of `inherited` to be confirmed.
Job copy_of(const Job& from, JobRevision revision, std::vector<InheritedValue> inherited,
            const Stamp& stamp);

/// Opens the next revision as a working copy of the last one.
void revise(Job& job, JobRevision revision, const std::string& reason, const Stamp& stamp);

/// Freezes the last revision with its documents, on a day from its last state on.
void send(Job& job, JobRevision revision, std::vector<SentDocument> documents, const Stamp& stamp);

/// won, lost or withdrawn, on a day from the sending to today.
void record_outcome(Job& job, JobState outcome, Date day, const std::string& reason,
                    const Stamp& stamp);

/// Confirms each field and what stands below it; none: all. Returns what was confirmed.
std::vector<InheritedValue> confirm(Job& job, const std::vector<std::string>& fields);

/// Whether a state may follow another one, given or not given a reason; empty: yes, else the
/// words that say what would do.
std::string refused_outcome(JobState from, JobState to, bool with_reason);

} // namespace backplate
