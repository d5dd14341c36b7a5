#pragma once

#include <string>

#include <wx/grid.h>

#include "app/desk/entry_rows.h"

namespace backplate {

/// Rows of the request as the grid's table, with one empty row below to type the next into. What
/// the request does not hold shows the value taken, in grey.
class EntryTable : public wxGridTableBase {
public:
    EntryTable(DeskState& state, const EntryList& list) : rows_(state, list) {}

    EntryRows& rows() { return rows_; }
    int GetNumberRows() override { return shown_rows_; }
    int GetNumberCols() override { return static_cast<int>(rows_.list().columns.size()); }
    wxString GetValue(int row, int column) override;
    void SetValue(int row, int column, const wxString& text) override;
    wxString GetColLabelValue(int column) override;
    wxString GetRowLabelValue(int row) override;
    wxGridCellAttr* GetAttr(int row, int column, wxGridCellAttr::wxAttrKind kind) override;
    /// Tells the grid how many rows there are now.
    void follow();

private:
    EntryRows rows_;
    int shown_rows_ = 1;
};

/// A grid of entries. Beside the toolkit's own keys: Ctrl+C and Ctrl+V with spreadsheets
/// (Ctrl+Shift+C with headings), Ctrl+D fills down, Delete empties cells, + and - on a count,
/// Ctrl+Minus removes rows.
class EntryGrid : public wxGrid {
public:
    EntryGrid(wxWindow* parent, DeskState& state, const EntryList& list);

    void show();
    /// Takes over what stands in an open cell editor.
    void finish_edit();
    void go_to(int row, const std::string& key);
    void go_to_new_row();
    std::string row_pointer() const;  ///< of the row with the cursor
    std::string cell_pointer() const; ///< of the cell with the cursor
    void remove_chosen_rows();
    /// Puts the cursor where the pointer leads, if it leads into this list.
    bool go_to_pointer(const std::string& pointer);

private:
    void bind_events();
    void set_columns();
    void widen_last_column();
    void explain_column(int x);
    void on_key(wxKeyEvent& event);
    bool act_on(const wxKeyEvent& event);
    bool steps_count(const wxKeyEvent& event);
    void paste();
    void copy(bool with_titles);
    void fill_down();
    void clear_chosen();
    void step_count(int by);
    wxGridBlockCoords chosen() const;
    const EntryColumn& spec(int column) const;
    EntryRows& rows() { return table_->rows(); }

    DeskState& state_;
    EntryTable* table_;
};

} // namespace backplate
