#pragma once

#include <memory>
#include <vector>

#include <wx/panel.h>

#include "app/desk/desk_state.h"
#include "app/desk/field.h"

class wxButton;
class wxStaticText;

namespace backplate {

/// Over the columns: title, client, revision, the day the bid is due with the days left, and
/// whether it may be sent; what forbids it leads to its field.
class FactsBar : public wxPanel {
public:
    FactsBar(wxWindow* parent, DeskState& state);

    void show();
    std::string send_text() const;
    /// The field that a pointer names; false: none of these.
    bool focus(const std::string& pointer);

private:
    DeskState& state_;
    std::vector<std::unique_ptr<Field>> fields_;
    wxStaticText *revision_ = nullptr, *days_ = nullptr;
    wxButton* send_ = nullptr;
};

} // namespace backplate
