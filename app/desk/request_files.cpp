#include "app/desk/request_files.h"

#include <algorithm>
#include <filesystem>

#include <wx/datetime.h>
#include <wx/filedlg.h>
#include <wx/window.h>

#include "app/desk/jobs_dialog.h"
#include "app/recent_files.h"
#include "app/stored_data.h"
#include "pricing/job/inherited.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr const char* request_files = "Requests (*.json)|*.json|All files|*";

std::string below(const std::string& folder, const char* name) {
    return folder.empty() ? std::string() : folder + "/" + name;
}

} // namespace

RequestFiles::RequestFiles(wxWindow& window, DeskState& state, const std::string& folder,
                           Calls calls)
    : window_(window), state_(state), drafts_(below(folder, "drafts")),
      recent_(below(folder, "recent")), calls_(std::move(calls)),
      keeper_(drafts_, [this](std::uint64_t stamp, const std::string& fault) {
          window_.CallAfter([this, stamp, fault] {
              if (fault.empty())
                  kept_ = stamp;
              else
                  calls_.say("The draft cannot be kept: " + fault);
              state_.look();
          });
      }) {}

void RequestFiles::attempt(const std::function<void()>& act) {
    try {
        act();
    } catch (const std::exception& fault) {
        calls_.say_fault(fault.what());
    }
}

/// The draft of what was in view waits for whoever wants it back.
void RequestFiles::leave() {
    keep();
    keeper_.leave();
}

void RequestFiles::make_new() {
    leave();
    state_.session.start(blank_request());
    calls_.replaced();
}

void RequestFiles::duplicate() {
    leave();
    Node copy = duplicate_request(*state_.session.request());
    state_.session.start(blank_request());
    state_.session.replace(std::move(copy));
    calls_.replaced();
}

void RequestFiles::open_by_dialog() {
    wxFileDialog dialog(&window_, "Open a request", "", "", request_files,
                        wxFD_OPEN | wxFD_FILE_MUST_EXIST);
    if (dialog.ShowModal() == wxID_OK) open(dialog.GetPath().utf8_string());
}

/// A file, or a job of the library: "job:3".
Session RequestFiles::opened(const std::string& name) const {
    Session session;
    if (const auto job = job_reference(name))
        session.open(backplate::open_job(state_.inputs->library, *job));
    else
        session.open(name);
    return session;
}

std::string RequestFiles::recent_name(const std::string& file) const {
    return job_reference(file) ? recent_job(file, library_path(state_.inputs->library)) : file;
}

void RequestFiles::open(const std::string& path) {
    attempt([&] {
        const auto job = job_of_recent(path, library_path(state_.inputs->library));
        Session next = opened(job.value_or(path));
        leave();
        state_.session = std::move(next);
        remember_file(recent_, recent_name(state_.session.file()));
        recover(false);
        calls_.replaced();
    });
}

void RequestFiles::open_job_by_dialog() {
    attempt([&] {
        const std::string& library = state_.inputs->library;
        JobsDialog dialog(&window_, open_jobs(library).jobs(), state_);
        if (dialog.ShowModal() != wxID_OK) return;
        if (!dialog.as_template()) return open("job:" + std::to_string(dialog.number()));
        Library jobs = open_jobs(library);
        const Job copy = copy_as_job(jobs, *state_.inputs, dialog.number(), std::nullopt);
        open("job:" + std::to_string(copy.number));
        calls_.say("Job " + std::to_string(copy.number) + " is a copy of job " +
                   std::to_string(dialog.number()) + ": what bears a question mark is not yet " +
                   "confirmed (Ctrl+K confirms, F8 leads to the next)");
    });
}

/// The job as it is now in the library; the request in view is what it holds.
void RequestFiles::take_job(int number) {
    state_.session.saved_in(backplate::open_job(state_.inputs->library, {number, std::nullopt}));
    remember_file(recent_, recent_name(state_.session.file()));
}

/// Into a job of the library, or as another one. The estimate in view is saved with it, so the
/// window waits for nothing but the file.
void RequestFiles::save_into(std::optional<int> number) {
    const Estimate* estimate = state_.estimate();
    if (!estimate || !state_.answer || state_.answer->generation != state_.asked || state_.stale())
        throw BadInput("The job can be saved once it has an estimate: see what is missing below");
    Estimate kept = *estimate;
    if (!number) kept.request.saved.reset();
    const Node& request = *state_.session.request();
    const bool moved = state_.session.moves_comments();
    const PricedRevision priced = priced_revision(state_.session.text(), kept, *state_.inputs);
    Library jobs = open_jobs(state_.inputs->library);
    const Job job = number ? save_into_job(jobs, *number, priced, inherited_values(request),
                                           state_.session.confirmed(), std::nullopt, stamp())
                           : jobs.add_job(new_job(kept.request.title, priced.revision, stamp()));
    take_job(job.number);
    calls_.say("Saved as job " + std::to_string(job.number) + ", revision " +
               std::to_string(job.latest().number) +
               (moved ? "; the comments of the request stand at its top now" : ""));
}

void RequestFiles::save_as_job() {
    attempt([&] { save_into(std::nullopt); });
    state_.changed(); // another job: its number is part of the estimate
}

void RequestFiles::revise_job() {
    attempt([&] {
        const OpenJob* job = state_.session.job();
        if (!job) throw BadInput("Only a saved job has revisions (Ctrl+Shift+J saves it as one)");
        const int number = job->job.number;
        const Job revised = open_jobs(state_.inputs->library).change_job(number, [](Job& changed) {
            revise(changed, changed.latest(), "", stamp());
        });
        take_job(number);
        calls_.say("Revision " + std::to_string(revised.latest().number) +
                   " is open; those that "
                   "were sent stay as they are");
    });
    state_.changed();
}

bool RequestFiles::save() {
    if (const OpenJob* job = state_.session.job()) {
        attempt([&] { save_into(job->job.number); });
        keep();
        state_.look();
        return !state_.session.dirty();
    }
    return state_.session.file().empty() ? save_as() : write_to(state_.session.file());
}

bool RequestFiles::save_as() {
    const std::filesystem::path file(state_.session.file());
    const std::string name =
        file.empty() ? state_.session.title() + ".json" : file.filename().string();
    wxFileDialog dialog(&window_, "Save the request as",
                        wxString::FromUTF8(file.parent_path().string()), wxString::FromUTF8(name),
                        request_files, wxFD_SAVE | wxFD_OVERWRITE_PROMPT);
    return dialog.ShowModal() == wxID_OK && write_to(dialog.GetPath().utf8_string());
}

bool RequestFiles::write_to(const std::string& path) {
    bool written = false;
    attempt([&] {
        state_.session.save_as(path);
        written = true;
        remember_file(recent_, path);
    });
    keep();
    state_.look();
    return written;
}

void RequestFiles::keep() {
    const bool needed = state_.session.dirty();
    keeper_.keep(needed ? state_.session.request() : nullptr, state_.session.file(), state_.asked,
                 state_.session.confirmed());
}

std::vector<std::string> RequestFiles::recent() const {
    std::vector<std::string> files = recent_files(recent_);
    const std::string library = library_path(state_.inputs->library);
    std::erase_if(files, [&](const std::string& file) {
        return file.starts_with("job:") && !job_of_recent(file, library);
    });
    return files;
}

std::vector<Draft> RequestFiles::left() const { return left_drafts(drafts_); }

/// What the draft kept, after what its file holds; where that is gone since, the draft stands
/// alone.
bool RequestFiles::take(const Draft& draft) {
    if (!keeper_.adopt(draft.path)) return false;
    if (state_.session.file() != draft.file || draft.file.empty()) {
        state_.session.start(blank_request());
        try {
            if (!draft.file.empty()) state_.session = opened(draft.file);
        } catch (const std::exception&) {
        }
    }
    state_.session.recover(draft.request, draft.file, draft.confirmed);
    return true;
}

void RequestFiles::recover(bool any) {
    const std::vector<Draft> drafts = left();
    const auto wanted = std::ranges::find_if(drafts, [&](const Draft& draft) {
        return any || (!draft.file.empty() && draft.file == state_.session.file());
    });
    if (wanted == drafts.end() || !take(*wanted)) return;
    const wxDateTime written(static_cast<time_t>(wanted->written));
    calls_.say("Brought back from " + written.FormatISOCombined(' ').utf8_string() +
               ": changes that no file holds yet. Undo leads back to the file.");
}

void RequestFiles::recover_draft(const std::string& path) {
    leave();
    const std::vector<Draft> drafts = left();
    const auto wanted = std::ranges::find(drafts, path, &Draft::path);
    if (wanted != drafts.end() && take(*wanted)) calls_.replaced();
}

} // namespace backplate
