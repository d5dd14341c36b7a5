#pragma once

#include <string>

#include <wx/grid.h>

#include "app/desk/desk_state.h"
#include "app/desk/points_table.h"

namespace backplate {

/// The grid of points. Beside the toolkit's own keys: Ctrl+C and Ctrl+V with spreadsheets, Ctrl+D
/// fills down, Delete empties cells, + and - on a count, Ctrl+Minus removes rows.
class PointsGrid : public wxGrid {
public:
    PointsGrid(wxWindow* parent, DeskState& state);

    void show();
    /// Takes over what stands in an open cell editor.
    void finish_edit();
    void go_to(int row, const std::string& key);
    void go_to_new_row();
    void remove_chosen_rows();

private:
    void set_columns();
    void widen_last_column();
    void on_key(wxKeyEvent& event);
    bool act_on(const wxKeyEvent& event);
    void paste();
    void copy();
    void fill_down();
    void clear_chosen();
    void step_count(int by);
    wxGridBlockCoords chosen() const;

    DeskState& state_;
    PointsTable* table_;
};

} // namespace backplate
