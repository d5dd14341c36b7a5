#include "app/desk/side_window.h"

#include <wx/panel.h>
#include <wx/sizer.h>

namespace backplate {

SideWindow::SideWindow(wxWindow* parent, DeskState& state, const char* title, const wxSize& size)
    : wxFrame(parent, wxID_ANY, title, wxDefaultPosition, parent->FromDIP(size),
              wxDEFAULT_FRAME_STYLE | wxFRAME_FLOAT_ON_PARENT | wxFRAME_NO_TASKBAR),
      state_(state), ground_(new wxPanel(this)) {
    Bind(wxEVT_CLOSE_WINDOW, [this](wxCloseEvent& event) {
        if (!event.CanVeto()) return Destroy(), void();
        put_away();
        event.Veto();
    });
    Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
        if (event.GetKeyCode() == WXK_ESCAPE)
            put_away();
        else
            event.Skip();
    });
    CentreOnParent();
}

void SideWindow::lay_out(wxSizer* rows) {
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(10)));
    ground_->SetSizer(margin);
}

void SideWindow::bring_up() {
    Show();
    Raise();
}

void SideWindow::put_away() {
    Hide();
    GetParent()->Raise();
    state_.look();
}

} // namespace backplate
