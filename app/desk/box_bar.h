#pragma once

#include <vector>

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/field.h"

class wxChoice;
class wxToggleButton;

namespace backplate {

/// The boxes as tabs, keys to add, double and remove one; of the box in view how many alike there
/// are and what controls it.
class BoxBar : public wxPanel {
public:
    BoxBar(wxWindow* parent, DeskState& state);

    void show();
    Field& quantity() { return *quantity_; }
    Field& controller() { return *controller_; }
    void add_box(bool like_this);
    void remove_box();
    void step_box(int by);

private:
    void make_tabs(const std::vector<std::string>& names);
    void look_at(std::size_t box);
    void store(Node boxes);

    DeskState& state_;
    wxSizer* tabs_ = nullptr;
    wxChoice* choice_ = nullptr; ///< in the place of tabs where there are many
    std::vector<wxToggleButton*> buttons_;
    std::vector<std::string> names_;
    std::unique_ptr<Field> quantity_, controller_;
};

} // namespace backplate
