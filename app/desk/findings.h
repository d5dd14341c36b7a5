#pragma once

#include <functional>
#include <string>
#include <vector>

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/row_list.h"

class wxStaticText;

namespace backplate {

class WrappedText;

/// Below the columns: faults, findings and assumptions, the gravest first. Choosing one puts the
/// cursor where its pointer leads; what the list cuts of it is said whole above it.
class Findings : public wxPanel {
public:
    Findings(wxWindow* parent, DeskState& state);

    void show();
    /// Leads to the doubt after the one chosen, the first after the last.
    void choose_next();
    const RowList& list() const { return *list_; }

private:
    void choose(long row);
    void show_whole(long row);

    DeskState& state_;
    wxStaticText* heading_ = nullptr;
    RowList* list_ = nullptr;
    WrappedText* whole_ = nullptr;
    std::vector<std::string> pointers_;
};

} // namespace backplate
