#pragma once

#include <wx/frame.h>

#include "app/desk/desk_state.h"

class wxPanel;
class wxSizer;

namespace backplate {

/// A window for one question, beside the page and above it. Escape and the key of its frame put it
/// away; it stays for the next question.
class SideWindow : public wxFrame {
public:
    /// `size` in device-independent pixels.
    SideWindow(wxWindow* parent, DeskState& state, const char* title, const wxSize& size);

protected:
    /// What its controls stand on.
    wxPanel* ground() const { return ground_; }
    /// Lays them out below each other, inside a margin.
    void lay_out(wxSizer* rows);
    void bring_up();
    virtual void put_away();

    DeskState& state_;

private:
    wxPanel* ground_ = nullptr;
};

} // namespace backplate
