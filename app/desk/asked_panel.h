#pragma once

#include <memory>
#include <span>
#include <string>
#include <vector>

#include <wx/panel.h>

#include "app/desk/box_bar.h"
#include "app/desk/field.h"
#include "app/desk/points_grid.h"

namespace backplate {

/// The left column: what the enquiry asks.
class AskedPanel : public wxPanel {
public:
    AskedPanel(wxWindow* parent, DeskState& state);

    void show();
    PointsGrid& points() { return *points_; }
    /// Puts the cursor into the field that a JSON pointer of the request names, or into the
    /// nearest around or inside it; false where the window has none.
    bool focus(const std::string& pointer);

private:
    void add_fields(wxSizer* rows, std::span<const FieldSpec> specs, int cells_a_row);
    void add_points(wxSizer* rows);
    bool focus_point(const std::string& pointer);

    DeskState& state_;
    std::vector<std::unique_ptr<Field>> fields_;
    BoxBar* boxes_ = nullptr;
    PointsGrid* points_ = nullptr;
};

} // namespace backplate
