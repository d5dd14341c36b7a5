#pragma once

#include <string>
#include <vector>

#include <wx/listctrl.h>

#include "app/desk/list_order.h"

namespace backplate {

/// A column of a list; the one without a width takes what the others leave.
struct ListColumn {
    const char* title = "";
    int width = 0;         ///< device-independent pixels
    bool right = false;    ///< figures: they are sorted by their worth
    bool as_given = false; ///< sorted by it, the rows stand as they came
};

/// What the headings of a list do.
enum class Sorting { none, rows, rows_but_last };

/// Rows of plain text in columns. The list holds the rows itself and draws those in view. A click
/// on a heading sorts by its column, a second one the other way round, a third one brings back the
/// order in which the rows came; so do Ctrl with the arrows: left and right choose the column, up
/// and down the way. Under the pointer, what a column cuts is said whole. All numbers of rows are
/// those of `rows()`, however they are shown.
class RowList : public wxListCtrl {
public:
    using Rows = std::vector<std::vector<std::string>>;

    RowList(wxWindow* parent, const std::string& name, const std::string& label,
            std::vector<ListColumn> columns, Sorting sorting = Sorting::none);

    void set_rows(Rows rows);
    /// Marks a row as the chosen one and brings it into view.
    void choose(long row);
    long chosen() const; ///< below 0: none
    /// The row that an item of the list shows, as events count them.
    long row_at(long item) const;
    /// The row that is shown after another one, the first after the last; `row` below 0: the first.
    long row_after(long row) const;
    const Rows& rows() const { return rows_; }
    Rows shown_rows() const;
    /// The cells of a row that are wider than their columns, whole; empty where all are in view.
    std::string cut_words(long row) const;
    /// Figures that are no longer the newest are grey.
    void set_stale(bool stale);
    const SortBy& sorted_by() const { return by_; }

private:
    wxString OnGetItemText(long row, long column) const override;
    wxItemAttr* OnGetItemAttr(long row) const override;
    void fit_columns();
    void explain_row(const wxPoint& at);
    void bind_sorting();
    bool sort_by_key(const wxKeyEvent& event);
    void sort_by(int column, bool ascending);
    long item_of(long row) const;

    std::vector<ListColumn> columns_;
    Rows rows_;
    Sorting sorting_;
    SortBy by_;
    std::vector<std::size_t> order_; ///< rows by the items that show them
    bool stale_ = false;
    mutable wxItemAttr grey_;
};

} // namespace backplate
