#pragma once

#include <wx/grid.h>

#include "app/desk/list_view.h"

namespace backplate {

/// The rows of a list as a grid's table: what became of each, then its cells. Sign, word and colour
/// say the same.
class PreviewTable : public wxGridTableBase {
public:
    int GetNumberRows() override { return static_cast<int>(preview_.rows.size()); }
    int GetNumberCols() override { return 2 + static_cast<int>(preview_.titles.size()); }
    wxString GetValue(int row, int column) override;
    void SetValue(int, int, const wxString&) override {}
    wxString GetColLabelValue(int column) override;
    wxString GetRowLabelValue(int row) override;
    wxGridCellAttr* GetAttr(int row, int column, wxGridCellAttr::wxAttrKind kind) override;

    /// The grid is told of the new size.
    void show(Preview preview);
    const Preview& preview() const { return preview_; }

private:
    Preview preview_;
};

} // namespace backplate
