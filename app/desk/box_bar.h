#pragma once

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/field.h"

class wxChoice;

namespace backplate {

/// Which box is in view, how many alike there are, and a key to add one.
class BoxBar : public wxPanel {
public:
    BoxBar(wxWindow* parent, DeskState& state);

    void show();
    Field& quantity() { return *quantity_; }

private:
    void add_box();

    DeskState& state_;
    wxChoice* choice_ = nullptr;
    std::unique_ptr<Field> quantity_;
};

} // namespace backplate
