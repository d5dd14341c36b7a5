#include "app/desk/points_grid.h"

#include <algorithm>
#include <charconv>

#include <wx/clipbrd.h>
#include <wx/combobox.h>
#include <wx/settings.h>

#include "app/desk/accessible.h"
#include "app/desk/words.h"

namespace backplate {
namespace {

/// A choice that can be typed into: the first key typed starts the entry.
class WordEditor : public wxGridCellChoiceEditor {
public:
    explicit WordEditor(const wxArrayString& words) : wxGridCellChoiceEditor(words, true) {}
    wxGridCellEditor* Clone() const override { return new WordEditor(m_choices); }
    void StartingKey(wxKeyEvent& event) override {
        const wxChar key = event.GetUnicodeKey();
        if (key < ' ') return;
        Combo()->SetValue(wxString(wxUniChar(key)));
        Combo()->SetInsertionPointEnd();
    }
};

std::vector<std::vector<std::string>> cells_of(const std::string& text) {
    std::vector<std::vector<std::string>> rows(1, std::vector<std::string>(1));
    for (const char sign : text) {
        if (sign == '\r') continue;
        if (sign == '\n')
            rows.emplace_back(1);
        else if (sign == '\t')
            rows.back().emplace_back();
        else
            rows.back().back() += sign;
    }
    if (rows.size() > 1 && rows.back() == std::vector<std::string>(1)) rows.pop_back();
    return rows;
}

} // namespace

PointsGrid::PointsGrid(wxWindow* parent, DeskState& state)
    : wxGrid(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxBORDER_THEME | wxWANTS_CHARS),
      state_(state), table_(new PointsTable(state)) {
    SetTable(table_, true);
    name_control(*this, "points", "Points by signal");
    SetRowLabelSize(FromDIP(34));
    SetColLabelSize(FromDIP(26));
    SetDefaultRowSize(FromDIP(26));
    SetGridLineColour(wxSystemSettings::GetColour(wxSYS_COLOUR_BTNSHADOW));
    SetCellHighlightColour(wxSystemSettings::GetColour(wxSYS_COLOUR_HIGHLIGHT));
    SetLabelFont(GetFont());
    SetDefaultCellAlignment(wxALIGN_LEFT, wxALIGN_CENTRE);
    DisableDragRowSize();
    set_columns();
    SetTabBehaviour(wxGrid::Tab_Leave);
    Bind(wxEVT_KEY_DOWN, &PointsGrid::on_key, this);
    Bind(wxEVT_GRID_SELECT_CELL, [this](wxGridEvent& event) {
        const wxString said = table_->GetRowLabelValue(event.GetRow()) + ", " +
                              table_->GetColLabelValue(event.GetCol()) + ": " +
                              table_->GetValue(event.GetRow(), event.GetCol());
        describe_control(*this, said.utf8_string());
        event.Skip();
    });
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        widen_last_column();
        event.Skip();
    });
}

void PointsGrid::widen_last_column() {
    const int last = table_->GetNumberCols() - 1;
    int rest = GetClientSize().x - GetRowLabelSize();
    for (int column = 0; column < last; ++column) rest -= GetColSize(column);
    SetColSize(last, std::max(rest, FromDIP(point_columns[last].width)));
}

void PointsGrid::set_columns() {
    for (int column = 0; column < table_->GetNumberCols(); ++column) {
        const PointColumn& spec = point_columns[column];
        SetColSize(column, FromDIP(spec.width));
        auto* attr = new wxGridCellAttr;
        if (spec.number) attr->SetAlignment(wxALIGN_RIGHT, wxALIGN_CENTRE);
        if (*spec.words)
            attr->SetEditor(new WordEditor(allowed_words(*state_.inputs->rules, spec.words)));
        SetColAttr(column, attr);
    }
}

void PointsGrid::show() {
    table_->follow();
    ForceRefresh();
}

void PointsGrid::finish_edit() {
    if (IsCellEditControlEnabled()) DisableCellEditControl();
}

void PointsGrid::go_to(int row, const std::string& key) {
    int column = 0;
    for (int i = 0; i < table_->GetNumberCols(); ++i)
        if (key == point_columns[i].key) column = i;
    SetFocus();
    GoToCell(std::min(row, table_->GetNumberRows() - 1), column);
}

void PointsGrid::go_to_new_row() { go_to(table_->row_count(), "signal"); }

wxGridBlockCoords PointsGrid::chosen() const {
    const auto blocks = GetSelectedBlocks();
    if (blocks.begin() != blocks.end()) return *blocks.begin();
    const int row = GetGridCursorRow();
    const int column = GetGridCursorCol();
    return {row, column, row, column};
}

void PointsGrid::remove_chosen_rows() {
    finish_edit();
    const auto block = chosen();
    table_->remove_rows(block.GetTopRow(), block.GetBottomRow() - block.GetTopRow() + 1);
    SetFocus();
}

void PointsGrid::on_key(wxKeyEvent& event) {
    if (IsCellEditControlShown() || !act_on(event)) event.Skip();
}

bool PointsGrid::act_on(const wxKeyEvent& event) {
    const int key = event.GetKeyCode();
    if (event.CmdDown()) {
        if (key == 'V') return paste(), true;
        if (key == 'C') return copy(), true;
        if (key == 'D') return fill_down(), true;
        if (key == '-' || key == WXK_NUMPAD_SUBTRACT) return remove_chosen_rows(), true;
        return false;
    }
    if (key == WXK_DELETE) return clear_chosen(), true;
    const bool on_count = std::string_view(point_columns[GetGridCursorCol()].key) == "count";
    const bool more = event.GetUnicodeKey() == '+' || key == WXK_NUMPAD_ADD;
    const bool fewer = event.GetUnicodeKey() == '-' || key == WXK_NUMPAD_SUBTRACT;
    if (!on_count || !(more || fewer)) return false;
    step_count(more ? 1 : -1);
    return true;
}

void PointsGrid::paste() {
    if (!wxTheClipboard->Open()) return;
    wxTextDataObject text;
    const bool there = wxTheClipboard->GetData(text);
    wxTheClipboard->Close();
    if (there)
        table_->paste(GetGridCursorRow(), GetGridCursorCol(),
                      cells_of(text.GetText().utf8_string()));
}

void PointsGrid::copy() {
    const auto block = chosen();
    wxString text;
    for (int row = block.GetTopRow(); row <= block.GetBottomRow(); ++row)
        for (int column = block.GetLeftCol(); column <= block.GetRightCol(); ++column)
            text << table_->GetValue(row, column) << (column == block.GetRightCol() ? "\n" : "\t");
    if (!wxTheClipboard->Open()) return;
    wxTheClipboard->SetData(new wxTextDataObject(text));
    wxTheClipboard->Close();
}

void PointsGrid::fill_down() {
    const auto block = chosen();
    std::vector<std::string> top;
    for (int column = block.GetLeftCol(); column <= block.GetRightCol(); ++column)
        top.push_back(table_->GetValue(block.GetTopRow(), column).utf8_string());
    const auto rows = static_cast<std::size_t>(block.GetBottomRow() - block.GetTopRow() + 1);
    table_->paste(block.GetTopRow(), block.GetLeftCol(), {rows, top});
}

void PointsGrid::clear_chosen() {
    const auto block = chosen();
    const int last = std::min(block.GetBottomRow(), table_->row_count() - 1);
    if (last < block.GetTopRow()) return;
    const auto rows = static_cast<std::size_t>(last - block.GetTopRow() + 1);
    const auto columns = static_cast<std::size_t>(block.GetRightCol() - block.GetLeftCol() + 1);
    table_->paste(block.GetTopRow(), block.GetLeftCol(), {rows, std::vector<std::string>(columns)});
}

void PointsGrid::step_count(int by) {
    const std::string text = table_->GetValue(GetGridCursorRow(), GetGridCursorCol()).utf8_string();
    int count = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), count);
    if (fault != std::errc{} || end != text.data() + text.size() || count + by < 0) return;
    table_->paste(GetGridCursorRow(), GetGridCursorCol(), {{std::to_string(count + by)}});
}

} // namespace backplate
