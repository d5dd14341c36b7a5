#pragma once

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/figure_lines.h"
#include "app/desk/row_list.h"

class wxStaticText;

namespace backplate {

/// The middle column: what must be built for the box in view.
class BuiltPanel : public wxPanel {
public:
    BuiltPanel(wxWindow* parent, DeskState& state);

    void show();
    const RowList& modules() const { return *modules_; }

private:
    void show_box(const Estimate& estimate, const BoxResult& box);
    void show_nothing();

    DeskState& state_;
    wxStaticText* system_ = nullptr;
    RowList* modules_ = nullptr;
    RowList* points_ = nullptr;
    FigureLines* lines_ = nullptr;
};

} // namespace backplate
