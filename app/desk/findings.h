#pragma once

#include <functional>
#include <string>
#include <vector>

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/row_list.h"

class wxStaticText;

namespace backplate {

/// Below the columns: faults, findings and assumptions, the gravest first. Choosing one calls
/// `go_to` with the pointer it is about.
class Findings : public wxPanel {
public:
    Findings(wxWindow* parent, DeskState& state, std::function<void(const std::string&)> go_to);

    void show();
    const RowList& list() const { return *list_; }

private:
    void choose(long row);

    DeskState& state_;
    std::function<void(const std::string&)> go_to_;
    wxStaticText* heading_ = nullptr;
    RowList* list_ = nullptr;
    std::vector<std::string> pointers_;
};

} // namespace backplate
