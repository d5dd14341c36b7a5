#include "app/desk/row_list.h"

#include <algorithm>
#include <utility>

#include <wx/settings.h>

#include "app/desk/accessible.h"

namespace backplate {

RowList::RowList(wxWindow* parent, const std::string& name, const std::string& label,
                 std::vector<ListColumn> columns, long style)
    : wxListCtrl(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize,
                 wxLC_REPORT | wxLC_VIRTUAL | wxLC_SINGLE_SEL | wxBORDER_THEME | style),
      columns_(std::move(columns)) {
    for (const ListColumn& column : columns_)
        AppendColumn(wxString::FromUTF8(column.title),
                     column.right ? wxLIST_FORMAT_RIGHT : wxLIST_FORMAT_LEFT,
                     FromDIP(column.width == 0 ? 60 : column.width));
    name_control(*this, name, label);
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        fit_columns();
        event.Skip();
    });
}

void RowList::set_rows(Rows rows) {
    if (rows == rows_) return;
    rows_ = std::move(rows);
    SetItemCount(static_cast<long>(rows_.size()));
    Refresh();
}

void RowList::choose(long row) {
    constexpr long marks = wxLIST_STATE_SELECTED | wxLIST_STATE_FOCUSED;
    if (row < 0 || row >= GetItemCount()) return;
    SetItemState(row, marks, marks);
    EnsureVisible(row);
}

void RowList::set_stale(bool stale) {
    if (stale == stale_) return;
    stale_ = stale;
    Refresh();
}

void RowList::fit_columns() {
    int rest = GetClientSize().x - FromDIP(4);
    for (const ListColumn& column : columns_) rest -= FromDIP(column.width);
    for (std::size_t i = 0; i < columns_.size(); ++i)
        if (columns_[i].width == 0)
            SetColumnWidth(static_cast<int>(i), std::max(rest, FromDIP(60)));
}

wxString RowList::OnGetItemText(long row, long column) const {
    const auto& cells = rows_[static_cast<std::size_t>(row)];
    const auto index = static_cast<std::size_t>(column);
    return index < cells.size() ? wxString::FromUTF8(cells[index]) : wxString();
}

wxItemAttr* RowList::OnGetItemAttr(long) const {
    if (!stale_) return nullptr;
    grey_.SetTextColour(wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    return &grey_;
}

} // namespace backplate
