#pragma once

#include <wx/panel.h>
#include <wx/sizer.h>

namespace backplate {

/// A page of a notebook whose controls lie above each other. It is laid out only once it has room:
/// lists that are asked to be smaller than their scroll bars complain.
class ListsPage : public wxPanel {
public:
    explicit ListsPage(wxWindow* parent) : wxPanel(parent) {
        SetSizer(new wxBoxSizer(wxVERTICAL));
        SetAutoLayout(false);
        Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
            const wxSize size = GetClientSize();
            if (size.x > FromDIP(120) && size.y > FromDIP(60)) Layout();
            event.Skip();
        });
    }
    void add(wxWindow* control, const wxSizerFlags& flags) { GetSizer()->Add(control, flags); }
};

} // namespace backplate
