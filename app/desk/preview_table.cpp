#include "app/desk/preview_table.h"

#include <wx/settings.h>

namespace backplate {
namespace {

using Is = RowOutcome::Is;

/// A tint that is light in a light window and dark in a dark one.
wxColour tint(int red, int green, int blue) {
    const wxColour ground = wxSystemSettings::GetColour(wxSYS_COLOUR_LISTBOX);
    const auto mixed = [](int one, int other) {
        return static_cast<unsigned char>((one * 78 + other * 22) / 100);
    };
    return {mixed(ground.Red(), red), mixed(ground.Green(), green), mixed(ground.Blue(), blue)};
}

std::optional<wxColour> tint_of(const std::optional<Is>& is) {
    if (!is) return std::nullopt;
    switch (*is) {
    case Is::counted: return tint(0, 158, 115);
    case Is::asked: return tint(230, 159, 0);
    case Is::refused: return tint(213, 94, 0);
    default: return std::nullopt;
    }
}

} // namespace

wxString PreviewTable::GetValue(int row, int column) {
    const PreviewRow& shown = preview_.rows[static_cast<std::size_t>(row)];
    if (column == 0) return wxString::FromUTF8(outcome_sign(shown.is));
    if (column == 1) return wxString::FromUTF8(shown.reason);
    const auto cell = static_cast<std::size_t>(column - 2);
    return cell < shown.cells->size() ? wxString::FromUTF8((*shown.cells)[cell]) : wxString();
}

wxString PreviewTable::GetColLabelValue(int column) {
    if (column == 0) return "Outcome";
    if (column == 1) return "Why";
    return wxString::FromUTF8(preview_.titles[static_cast<std::size_t>(column - 2)]);
}

wxString PreviewTable::GetRowLabelValue(int row) {
    return wxString::Format("%d", preview_.rows[static_cast<std::size_t>(row)].number);
}

wxGridCellAttr* PreviewTable::GetAttr(int row, int column, wxGridCellAttr::wxAttrKind kind) {
    wxGridCellAttr* attr = wxGridTableBase::GetAttr(row, column, kind);
    const auto& is = preview_.rows[static_cast<std::size_t>(row)].is;
    const auto ground = tint_of(is);
    if (!ground && is) return attr;
    auto* own = attr ? attr->Clone() : new wxGridCellAttr;
    if (attr) attr->DecRef();
    if (ground) own->SetBackgroundColour(*ground);
    if (!is) own->SetTextColour(wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    return own;
}

void PreviewTable::show(Preview preview) {
    const int rows = GetNumberRows();
    const int columns = GetNumberCols();
    preview_ = std::move(preview);
    if (!GetView()) return;
    const auto tell = [&](int change, int more, int fewer) {
        if (change == 0) return;
        wxGridTableMessage message(this, change > 0 ? more : fewer, change > 0 ? change : 0,
                                   change > 0 ? 0 : -change);
        GetView()->ProcessTableMessage(message);
    };
    tell(GetNumberRows() - rows, wxGRIDTABLE_NOTIFY_ROWS_APPENDED, wxGRIDTABLE_NOTIFY_ROWS_DELETED);
    tell(GetNumberCols() - columns, wxGRIDTABLE_NOTIFY_COLS_APPENDED,
         wxGRIDTABLE_NOTIFY_COLS_DELETED);
    GetView()->ForceRefresh();
}

} // namespace backplate
