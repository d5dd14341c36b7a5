#pragma once

#include <vector>

#include <wx/dialog.h>

#include "app/desk/desk_state.h"
#include "app/desk/row_list.h"

class wxStaticText;
class wxTextCtrl;

namespace backplate {

/// The saved jobs of the library, the latest first: found as one types, by number, title, state,
/// due date and price. Return opens the one chosen; a copy as template begins a new job.
class JobsDialog : public wxDialog {
public:
    JobsDialog(wxWindow* parent, std::vector<JobHead> jobs, const DeskState& state);

    int number() const { return number_; } ///< of the job chosen
    bool as_template() const { return as_template_; }

private:
    void make_controls();
    wxSizer* make_keys();
    void show_found();
    void end(bool as_template);
    bool act_on(const wxKeyEvent& event);

    std::vector<JobHead> jobs_, found_;
    const DeskState& state_;
    int number_ = 0;
    bool as_template_ = false;
    wxTextCtrl* words_ = nullptr;
    wxStaticText* count_ = nullptr;
    RowList* list_ = nullptr;
};

} // namespace backplate
