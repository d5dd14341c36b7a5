#pragma once

#include <atomic>
#include <functional>
#include <string>
#include <vector>

#include "app/desk/desk_state.h"
#include "app/drafts.h"

class wxWindow;

namespace backplate {

/// New, open, save, duplicate, recent and drafts of the window's request. Nothing asks whether to
/// leave: what no file holds stays as a draft and can be brought back.
class RequestFiles {
public:
    struct Calls {
        std::function<void()> replaced;                    ///< another request is in the session
        std::function<void(const std::string&)> say_fault; ///< in the window's own way
        std::function<void(const std::string&)> say;       ///< something worth knowing
    };
    /// `folder`: where drafts and the list of recent files lie; empty: none are kept.
    RequestFiles(wxWindow& window, DeskState& state, const std::string& folder, Calls calls);

    void make_new();
    void duplicate();
    void open_by_dialog();
    void open(const std::string& path);
    void open_job_by_dialog();
    bool save();
    /// Saves what is in view as another job of the library.
    void save_as_job();
    /// Opens the next revision of the job in view.
    void revise_job();
    bool save_as();
    /// Brings back the newest draft: of the session's file, or any where no file was asked for.
    void recover(bool any);
    void recover_draft(const std::string& path);
    /// Keeps the newest state; called after every change.
    void keep();

    std::vector<std::string> recent() const;
    std::vector<Draft> left() const;
    std::uint64_t kept() const { return kept_; } ///< generation that is safe

private:
    Session opened(const std::string& name) const;
    bool write_to(const std::string& path);
    void save_into(std::optional<int> number);
    void take_job(int number);
    bool take(const Draft& draft);
    std::string recent_name(const std::string& file) const;
    void leave();
    void attempt(const std::function<void()>& act);

    wxWindow& window_;
    DeskState& state_;
    std::string drafts_, recent_;
    Calls calls_;
    std::uint64_t kept_ = 0;
    DraftKeeper keeper_; ///< last: ends first
};

} // namespace backplate
