#include "app/desk/request_files.h"

#include <algorithm>
#include <filesystem>

#include <wx/datetime.h>
#include <wx/filedlg.h>
#include <wx/window.h>

#include "app/recent_files.h"

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

void RequestFiles::open(const std::string& path) {
    attempt([&] {
        Session opened;
        opened.open(path);
        leave();
        state_.session = std::move(opened);
        remember_file(recent_, path);
        recover(false);
        calls_.replaced();
    });
}

bool RequestFiles::save() {
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
    keeper_.keep(needed ? state_.session.request() : nullptr, state_.session.file(), state_.asked);
}

std::vector<std::string> RequestFiles::recent() const { return recent_files(recent_); }

std::vector<Draft> RequestFiles::left() const { return left_drafts(drafts_); }

void RequestFiles::recover(bool any) {
    const std::vector<Draft> drafts = left();
    const auto wanted = std::ranges::find_if(drafts, [&](const Draft& draft) {
        return any || (!draft.file.empty() && draft.file == state_.session.file());
    });
    if (wanted == drafts.end() || !keeper_.adopt(wanted->path)) return;
    state_.session.recover(wanted->request, wanted->file);
    const wxDateTime written(static_cast<time_t>(wanted->written));
    calls_.say("Brought back from " + written.FormatISOCombined(' ').utf8_string() +
               ": changes that no file holds yet. Undo leads back to the file.");
}

void RequestFiles::recover_draft(const std::string& path) {
    leave();
    const std::vector<Draft> drafts = left();
    const auto wanted = std::ranges::find(drafts, path, &Draft::path);
    if (wanted == drafts.end() || !keeper_.adopt(path)) return;
    state_.session.recover(wanted->request, wanted->file);
    calls_.replaced();
}

} // namespace backplate
