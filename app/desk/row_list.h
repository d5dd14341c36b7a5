#pragma once

#include <string>
#include <vector>

#include <wx/listctrl.h>

namespace backplate {

/// A column of a list; the one without a width takes what the others leave.
struct ListColumn {
    const char* title = "";
    int width = 0; ///< device-independent pixels
    bool right = false;
};

/// Rows of plain text in columns. The list holds the rows itself and draws those in view.
class RowList : public wxListCtrl {
public:
    using Rows = std::vector<std::vector<std::string>>;

    RowList(wxWindow* parent, const std::string& name, const std::string& label,
            std::vector<ListColumn> columns, long style = 0);

    void set_rows(Rows rows);
    /// Marks a row as the chosen one and brings it into view.
    void choose(long row);
    long chosen() const { return GetNextItem(-1, wxLIST_NEXT_ALL, wxLIST_STATE_SELECTED); }
    const Rows& rows() const { return rows_; }
    /// Figures that are no longer the newest are grey.
    void set_stale(bool stale);

private:
    wxString OnGetItemText(long row, long column) const override;
    wxItemAttr* OnGetItemAttr(long row) const override;
    void fit_columns();

    std::vector<ListColumn> columns_;
    Rows rows_;
    bool stale_ = false;
    mutable wxItemAttr grey_;
};

} // namespace backplate
