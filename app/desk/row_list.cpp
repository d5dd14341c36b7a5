#include "app/desk/row_list.h"

#include <algorithm>
#include <utility>

#include <wx/settings.h>

#include "app/desk/accessible.h"

namespace backplate {

RowList::RowList(wxWindow* parent, const std::string& name, const std::string& label,
                 std::vector<ListColumn> columns, Sorting sorting)
    : wxListCtrl(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize,
                 wxLC_REPORT | wxLC_VIRTUAL | wxLC_SINGLE_SEL | wxBORDER_THEME),
      columns_(std::move(columns)), sorting_(sorting) {
    for (const ListColumn& column : columns_)
        AppendColumn(wxString::FromUTF8(column.title),
                     column.right ? wxLIST_FORMAT_RIGHT : wxLIST_FORMAT_LEFT,
                     FromDIP(column.width == 0 ? 60 : column.width));
    name_control(*this, name, label);
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        fit_columns();
        event.Skip();
    });
    Bind(wxEVT_MOTION, [this](wxMouseEvent& event) {
        explain_row(event.GetPosition());
        event.Skip();
    });
    if (sorting_ != Sorting::none) bind_sorting();
}

void RowList::bind_sorting() {
    Bind(wxEVT_LIST_COL_CLICK, [this](wxListEvent& event) {
        const int column = event.GetColumn();
        if (column != by_.column) return sort_by(column, true);
        if (by_.ascending) return sort_by(column, false);
        sort_by(-1, true);
    });
    Bind(wxEVT_KEY_DOWN, [this](wxKeyEvent& event) {
        if (!event.ControlDown() || !sort_by_key(event)) event.Skip();
    });
}

bool RowList::sort_by_key(const wxKeyEvent& event) {
    const auto count = static_cast<int>(columns_.size());
    const int ring = count + 1; // the order in which they came is one of the choices
    switch (event.GetKeyCode()) {
    case WXK_RIGHT: return sort_by((by_.column + 2) % ring - 1, true), true;
    case WXK_LEFT: return sort_by((by_.column + 1 + count) % ring - 1, true), true;
    case WXK_UP: return sort_by(std::max(0, by_.column), true), true;
    case WXK_DOWN: return sort_by(std::max(0, by_.column), false), true;
    default: return false;
    }
}

void RowList::sort_by(int column, bool ascending) {
    const long row = chosen();
    by_ = {column, ascending, false, false, sorting_ == Sorting::rows_but_last};
    std::string words;
    if (column >= 0) {
        const ListColumn& named = columns_[static_cast<std::size_t>(column)];
        by_.numbers = named.right;
        by_.as_given = named.as_given;
        words = std::string("sorted by ") + named.title + (ascending ? "" : ", downwards");
        ShowSortIndicator(column, ascending);
    } else {
        RemoveSortIndicator();
    }
    describe_control(*this, words);
    order_ = shown_order(rows_, by_);
    if (row >= 0) choose(row);
    Refresh();
}

void RowList::set_rows(Rows rows) {
    if (rows == rows_) return;
    rows_ = std::move(rows);
    order_ = shown_order(rows_, by_);
    SetItemCount(static_cast<long>(rows_.size()));
    Refresh();
}

long RowList::row_at(long item) const {
    const auto index = static_cast<std::size_t>(item);
    return item >= 0 && index < order_.size() ? static_cast<long>(order_[index]) : -1;
}

long RowList::item_of(long row) const {
    if (row < 0) return -1;
    const auto found = std::ranges::find(order_, static_cast<std::size_t>(row));
    return found == order_.end() ? -1 : found - order_.begin();
}

long RowList::chosen() const {
    return row_at(GetNextItem(-1, wxLIST_NEXT_ALL, wxLIST_STATE_SELECTED));
}

long RowList::row_after(long row) const {
    return order_.empty() ? -1 : row_at((item_of(row) + 1) % static_cast<long>(order_.size()));
}

RowList::Rows RowList::shown_rows() const {
    Rows shown;
    for (const std::size_t row : order_) shown.push_back(rows_[row]);
    return shown;
}

void RowList::choose(long row) {
    constexpr long marks = wxLIST_STATE_SELECTED | wxLIST_STATE_FOCUSED;
    const long item = item_of(row);
    if (item < 0) return;
    SetItemState(item, marks, marks);
    EnsureVisible(item);
}

std::string RowList::cut_words(long row) const {
    std::string words;
    const auto index = static_cast<std::size_t>(row);
    if (row < 0 || index >= rows_.size()) return words;
    const auto& cells = rows_[index];
    for (std::size_t i = 0; i < std::min(cells.size(), columns_.size()); ++i) {
        const int room = GetColumnWidth(static_cast<int>(i)) - FromDIP(8);
        if (GetTextExtent(wxString::FromUTF8(cells[i])).x <= room) continue;
        words += (words.empty() ? "" : "\n") + cells[i];
    }
    return words;
}

void RowList::explain_row(const wxPoint& at) {
    int where = 0;
    const wxString tip = wxString::FromUTF8(cut_words(row_at(HitTest(at, where))));
    if (GetToolTipText() != tip) SetToolTip(tip);
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
    const auto& cells = rows_[order_[static_cast<std::size_t>(row)]];
    const auto index = static_cast<std::size_t>(column);
    return index < cells.size() ? wxString::FromUTF8(cells[index]) : wxString();
}

wxItemAttr* RowList::OnGetItemAttr(long) const {
    if (!stale_) return nullptr;
    grey_.SetTextColour(wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    return &grey_;
}

} // namespace backplate
