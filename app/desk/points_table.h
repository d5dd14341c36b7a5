#pragma once

#include <wx/grid.h>

#include "app/desk/desk_state.h"

namespace backplate {

/// One column of the points: a key of the contract.
struct PointColumn {
    const char* key;
    const char* title;
    int width; ///< device-independent pixels
    bool number;
    const char* words; ///< key of the allowed words, or empty
};

inline constexpr PointColumn point_columns[] = {
    {"signal", "Signal", 96, false, "boxes[].points[].signal"}, {"count", "Count", 62, true, ""},
    {"wiring", "Wiring", 86, false, "boxes[].points[].wiring"}, {"amps", "A each", 62, true, ""},
    {"via", "Via", 112, false, "boxes[].points[].via"},
};

/// The points of the box in view as a grid, with one empty row below to type the next into. The
/// request is the only store; a cell that it does not hold shows the value taken, in grey.
class PointsTable : public wxGridTableBase {
public:
    explicit PointsTable(DeskState& state) : state_(state), shown_rows_(row_count() + 1) {}

    int GetNumberRows() override { return row_count() + 1; }
    int GetNumberCols() override { return static_cast<int>(std::size(point_columns)); }
    wxString GetValue(int row, int column) override;
    void SetValue(int row, int column, const wxString& text) override;
    wxString GetColLabelValue(int column) override { return point_columns[column].title; }
    wxString GetRowLabelValue(int row) override;
    wxGridCellAttr* GetAttr(int row, int column, wxGridCellAttr::wxAttrKind kind) override;

    int row_count() const;
    bool given(int row, int column) const;
    /// Writes cells from the upper left corner on; rows are added as needed. One step back.
    void paste(int row, int column, const std::vector<std::vector<std::string>>& cells);
    void remove_rows(int first, int count);
    /// Tells the grid how many rows there are now.
    void follow();

private:
    std::string pointer() const { return state_.box_pointer() + "/points"; }
    Node points() const;
    const Node* cell(int row, int column) const;
    const Node* taken_cell(int row, int column) const;
    void put(Node& points, int row, int column, const std::string& text) const;
    void store(Node points);

    DeskState& state_;
    int shown_rows_;
};

} // namespace backplate
