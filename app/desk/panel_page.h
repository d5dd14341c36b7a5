#pragma once

#include <wx/panel.h>

#include "app/desk/drawing_view.h"

class wxButton;
class wxStaticText;

namespace backplate {

/// The page of the drawing: below it the device that is marked, in two lines of words, and the key
/// that leads to the door, where something stands in it, and back to the plate.
class PanelPage : public wxPanel {
public:
    /// `calls.moved` is the page's own.
    PanelPage(wxWindow* parent, DrawingView::Calls calls);

    DrawingView& drawing() const { return *drawing_; }

private:
    void show_marked();

    DrawingView* drawing_ = nullptr;
    wxStaticText *marked_ = nullptr, *more_ = nullptr;
    wxButton* face_ = nullptr;
};

} // namespace backplate
