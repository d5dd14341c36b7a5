#include "pricing/job/saved_job.h"

#include <algorithm>
#include <array>

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

constexpr auto words =
    std::array<std::string_view, 6>{"enquiry", "estimating", "sent", "won", "lost", "withdrawn"};

std::string name_of(const Job& job) { return "job " + steps_text(job.number, 0); }

std::string revision_text(const Job& job) {
    return "revision " + steps_text(job.latest().number, 0);
}

[[noreturn]] void refuse(const Job& job, const std::string& text) {
    throw BadInput(name_of(job) + ": " + text);
}

void add_state(Job& job, JobState state, Date day, std::string reason, const Stamp& stamp) {
    job.states.push_back(
        {job.latest().number, state, day, std::move(reason), stamp.at, stamp.person});
}

JobRevision stamped(JobRevision revision, int number, const Stamp& stamp) {
    revision.number = number;
    revision.saved_at = stamp.at;
    revision.person = stamp.person;
    revision.sent_at.clear();
    revision.documents.clear();
    return revision;
}

void require_work(const Job& job) {
    if (job.latest().sent())
        refuse(job, revision_text(job) + " was sent and never changes; expected a revision that "
                                         "is not sent: jobs revise opens one");
    const JobState state = job.state().state;
    if (state != JobState::enquiry && state != JobState::estimating)
        refuse(job, "is " + std::string(state_word(state)) +
                        "; expected a job in work: jobs revise opens the next revision");
}

void require_from(const Job& job, Date day, Date first) {
    if (day < first) refuse(job, day.text() + " is too early; expected a day from " + first.text());
}

Date sending_day(const Job& job) {
    for (auto change = job.states.rbegin(); change != job.states.rend(); ++change)
        if (change->state == JobState::sent) return change->day;
    return job.states.front().day;
}

bool stands_below(const std::string& field, const std::string& wanted) {
    return field == wanted || (field.size() > wanted.size() && field.starts_with(wanted) &&
                               field[wanted.size()] == '/');
}

} // namespace

std::string_view state_word(JobState state) { return words[static_cast<std::size_t>(state)]; }

std::optional<JobState> find_state(std::string_view word) {
    const auto found = std::ranges::find(words, word);
    if (found == words.end()) return std::nullopt;
    return static_cast<JobState>(found - words.begin());
}

std::vector<std::string> state_words() { return {words.begin(), words.end()}; }

const JobRevision* Job::revision(int wanted) const {
    const auto found = std::ranges::find(revisions, wanted, &JobRevision::number);
    return found == revisions.end() ? nullptr : &*found;
}

Job new_job(std::string title, JobRevision revision, const Stamp& stamp) {
    Job job;
    job.title = std::move(title);
    job.revisions.push_back(stamped(std::move(revision), 1, stamp));
    add_state(job, JobState::enquiry, stamp.day, "", stamp);
    return job;
}

std::vector<InheritedValue> still_unconfirmed(const Job& job,
                                              const std::vector<InheritedValue>& now) {
    std::vector<InheritedValue> open = job.unconfirmed;
    std::erase_if(open, [&](const InheritedValue& mark) {
        return !mark.value.empty() && std::ranges::find(now, mark) == now.end();
    });
    return open;
}

void save_work(Job& job, JobRevision revision, const std::vector<InheritedValue>& now,
               const Stamp& stamp) {
    require_work(job);
    require_from(job, stamp.day, job.state().day);
    job.revisions.back() = stamped(std::move(revision), job.latest().number, stamp);
    job.unconfirmed = still_unconfirmed(job, now);
    if (job.state().state == JobState::enquiry)
        add_state(job, JobState::estimating, stamp.day, "", stamp);
}

Job copy_of(const Job& from, JobRevision revision, std::vector<InheritedValue> inherited,
            const Stamp& stamp) {
    Job job = new_job(from.title, std::move(revision), stamp);
    job.copied_from = Template{from.number, from.latest().number};
    job.unconfirmed = std::move(inherited);
    return job;
}

void revise(Job& job, JobRevision revision, const std::string& reason, const Stamp& stamp) {
    const JobState state = job.state().state;
    if (state == JobState::enquiry || state == JobState::estimating)
        refuse(job, revision_text(job) + " is not sent yet; expected a sent, lost or withdrawn "
                                         "job: jobs save changes the revision in work");
    if (state == JobState::won)
        refuse(job, "is won; expected a sent, lost or withdrawn job: jobs copy makes a new one");
    job.revisions.push_back(stamped(std::move(revision), job.latest().number + 1, stamp));
    add_state(job, JobState::estimating, stamp.day, reason, stamp);
}

void send(Job& job, JobRevision revision, std::vector<SentDocument> documents, const Stamp& stamp) {
    require_work(job);
    require_from(job, stamp.day, job.state().day);
    JobRevision sent = stamped(std::move(revision), job.latest().number, stamp);
    sent.documents = std::move(documents);
    sent.sent_at = stamp.at;
    job.revisions.back() = std::move(sent);
    add_state(job, JobState::sent, stamp.day, "", stamp);
}

std::string refused_outcome(JobState from, JobState to, bool with_reason) {
    if (to != JobState::won && to != JobState::lost && to != JobState::withdrawn)
        return "'" + std::string(state_word(to)) +
               "' is no outcome; expected won, lost or withdrawn";
    if (from == to) return "is " + std::string(state_word(from)) + " already";
    const bool unsent = from == JobState::enquiry || from == JobState::estimating;
    if (unsent && to != JobState::withdrawn)
        return "was not sent; expected jobs send before won or lost";
    if (from == JobState::withdrawn)
        return "is withdrawn; expected jobs revise before another outcome";
    const bool corrected = from == JobState::won || from == JobState::lost;
    if ((corrected || to != JobState::won) && !with_reason)
        return corrected ? "is " + std::string(state_word(from)) +
                               "; expected --reason for another outcome"
                         : "expected --reason for " + std::string(state_word(to));
    return {};
}

void record_outcome(Job& job, JobState outcome, Date day, const std::string& reason,
                    const Stamp& stamp) {
    if (const auto text = refused_outcome(job.state().state, outcome, !reason.empty());
        !text.empty())
        refuse(job, text);
    if (day > stamp.day)
        refuse(job, day.text() + " is still to come; expected a day up to " + stamp.day.text());
    require_from(job, day, sending_day(job));
    add_state(job, outcome, day, reason, stamp);
}

std::vector<InheritedValue> confirm(Job& job, const std::vector<std::string>& fields) {
    require_work(job);
    std::vector<InheritedValue> confirmed;
    for (const std::string& field : fields)
        if (std::ranges::none_of(job.unconfirmed, [&](const InheritedValue& mark) {
                return stands_below(mark.field, field);
            }))
            refuse(job, "'" + field +
                            "' is nothing to be confirmed; expected a field that jobs "
                            "confirm lists");
    std::erase_if(job.unconfirmed, [&](const InheritedValue& mark) {
        const bool taken =
            fields.empty() || std::ranges::any_of(fields, [&](const std::string& field) {
                return stands_below(mark.field, field);
            });
        if (taken) confirmed.push_back(mark);
        return taken;
    });
    return confirmed;
}

} // namespace backplate
