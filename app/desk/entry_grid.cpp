#include "app/desk/entry_grid.h"

#include <algorithm>
#include <charconv>

#include <wx/clipbrd.h>
#include <wx/combobox.h>
#include <wx/settings.h>

#include "app/desk/accessible.h"
#include "app/desk/entry_check.h"
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

CellTexts cells_of(const std::string& text) {
    CellTexts rows(1, std::vector<std::string>(1));
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

wxArrayString words_for(const EntryColumn& column, const RuleBook& rules) {
    wxArrayString words;
    if (column.kind == EntryColumn::Kind::flag) {
        words.Add("yes");
        words.Add("no");
    }
    for (const std::string& word : allowed_words(rules, column.words))
        words.Add(wxString::FromUTF8(word));
    return words;
}

} // namespace

wxString EntryTable::GetValue(int row, int column) {
    return wxString::FromUTF8(rows_.text(row, column));
}

void EntryTable::SetValue(int row, int column, const wxString& text) {
    if (text != GetValue(row, column)) rows_.write(row, column, {{text.utf8_string()}});
}

wxString EntryTable::GetColLabelValue(int column) {
    return wxString::FromUTF8(rows_.list().columns[static_cast<std::size_t>(column)].title);
}

wxString EntryTable::GetRowLabelValue(int row) {
    if (row >= rows_.row_count()) return "+";
    return wxString::Format(rows_.waits(row) ? "%d ?" : "%d", row + 1);
}

wxGridCellAttr* EntryTable::GetAttr(int row, int column, wxGridCellAttr::wxAttrKind kind) {
    wxGridCellAttr* attr = wxGridTableBase::GetAttr(row, column, kind);
    if (row >= rows_.row_count() || rows_.given(row, column)) return attr;
    auto* grey = attr ? attr->Clone() : new wxGridCellAttr;
    if (attr) attr->DecRef();
    grey->SetTextColour(wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    return grey;
}

void EntryTable::follow() {
    const int rows = rows_.row_count() + 1;
    const int difference = rows - shown_rows_;
    shown_rows_ = rows;
    if (difference == 0 || !GetView()) return;
    if (difference > 0) {
        wxGridTableMessage more(this, wxGRIDTABLE_NOTIFY_ROWS_APPENDED, difference);
        GetView()->ProcessTableMessage(more);
    } else {
        wxGridTableMessage fewer(this, wxGRIDTABLE_NOTIFY_ROWS_DELETED, rows, -difference);
        GetView()->ProcessTableMessage(fewer);
    }
}

EntryGrid::EntryGrid(wxWindow* parent, DeskState& state, const EntryList& list)
    : wxGrid(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize, wxBORDER_THEME | wxWANTS_CHARS),
      state_(state), table_(new EntryTable(state, list)) {
    SetTable(table_, true);
    name_control(*this, list.name, list.label);
    SetRowLabelSize(FromDIP(30));
    SetColLabelSize(FromDIP(26));
    SetDefaultRowSize(FromDIP(26));
    SetGridLineColour(wxSystemSettings::GetColour(wxSYS_COLOUR_BTNSHADOW));
    SetCellHighlightColour(wxSystemSettings::GetColour(wxSYS_COLOUR_HIGHLIGHT));
    SetDefaultCellBackgroundColour(wxSystemSettings::GetColour(wxSYS_COLOUR_LISTBOX));
    SetDefaultCellTextColour(wxSystemSettings::GetColour(wxSYS_COLOUR_LISTBOXTEXT));
    SetLabelFont(GetFont());
    SetDefaultCellAlignment(wxALIGN_LEFT, wxALIGN_CENTRE);
    DisableDragRowSize();
    SetTabBehaviour(wxGrid::Tab_Leave);
    set_columns();
    bind_events();
}

const EntryColumn& EntryGrid::spec(int column) const {
    return table_->rows().list().columns[static_cast<std::size_t>(column)];
}

void EntryGrid::bind_events() {
    Bind(wxEVT_KEY_DOWN, &EntryGrid::on_key, this);
    Bind(wxEVT_CHAR, [this](wxKeyEvent& event) {
        if (IsCellEditControlShown() || !steps_count(event)) event.Skip();
    });
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
    GetGridColLabelWindow()->Bind(wxEVT_MOTION, [this](wxMouseEvent& event) {
        explain_column(CalcUnscrolledPosition(event.GetPosition()).x);
        event.Skip();
    });
}

/// What a column takes, with its unit and range.
void EntryGrid::explain_column(int x) {
    const int column = XToCol(x);
    if (column < 0) return;
    const std::string expected = expected_at(rows().pointer(0, column), *state_.inputs->rules);
    const wxString tip = wxString::FromUTF8(spec(column).title) +
                         (expected.empty() ? wxString() : ": " + wxString::FromUTF8(expected));
    if (GetGridColLabelWindow()->GetToolTipText() != tip) GetGridColLabelWindow()->SetToolTip(tip);
}

void EntryGrid::widen_last_column() {
    const int last = table_->GetNumberCols() - 1;
    int rest = GetClientSize().x - GetRowLabelSize();
    for (int column = 0; column < last; ++column) rest -= GetColSize(column);
    SetColSize(last, std::max(rest, FromDIP(spec(last).width)));
}

void EntryGrid::set_columns() {
    for (int column = 0; column < table_->GetNumberCols(); ++column) {
        SetColSize(column, FromDIP(spec(column).width));
        auto* attr = new wxGridCellAttr;
        if (spec(column).right()) attr->SetAlignment(wxALIGN_RIGHT, wxALIGN_CENTRE);
        if (const auto words = words_for(spec(column), *state_.inputs->rules); !words.empty())
            attr->SetEditor(new WordEditor(words));
        SetColAttr(column, attr);
    }
}

void EntryGrid::show() {
    table_->follow();
    ForceRefresh();
}

void EntryGrid::finish_edit() {
    if (IsCellEditControlEnabled()) DisableCellEditControl();
}

void EntryGrid::go_to(int row, const std::string& key) {
    int column = 0;
    for (int i = 0; i < table_->GetNumberCols(); ++i)
        if (!key.empty() && key == spec(i).key) column = i;
    SetFocus();
    GoToCell(std::min(row, table_->GetNumberRows() - 1), column);
}

void EntryGrid::go_to_new_row() { go_to(rows().row_count(), ""); }

std::string EntryGrid::row_pointer() const {
    return state_.box_pointer() + table_->rows().list().pointer + "/" +
           std::to_string(GetGridCursorRow());
}

std::string EntryGrid::cell_pointer() const {
    return table_->rows().pointer(GetGridCursorRow(), GetGridCursorCol());
}

bool EntryGrid::go_to_pointer(const std::string& pointer) {
    const std::string lead = state_.box_pointer() + rows().list().pointer;
    if (!is_about(lead, pointer) || pointer.size() < lead.size()) return false;
    int row = 0;
    if (pointer.size() > lead.size())
        std::from_chars(pointer.data() + lead.size() + 1, pointer.data() + pointer.size(), row);
    go_to(row, pointer.substr(pointer.rfind('/') + 1));
    return true;
}

wxGridBlockCoords EntryGrid::chosen() const {
    const auto blocks = GetSelectedBlocks();
    if (blocks.begin() != blocks.end()) return *blocks.begin();
    const int row = GetGridCursorRow();
    const int column = GetGridCursorCol();
    return {row, column, row, column};
}

void EntryGrid::remove_chosen_rows() {
    finish_edit();
    const auto block = chosen();
    rows().remove_rows(block.GetTopRow(), block.GetBottomRow() - block.GetTopRow() + 1);
    SetFocus();
}

void EntryGrid::on_key(wxKeyEvent& event) {
    if (IsCellEditControlShown() || !act_on(event)) event.Skip();
}

bool EntryGrid::act_on(const wxKeyEvent& event) {
    const int key = event.GetKeyCode();
    if (event.CmdDown()) {
        if (key == 'V') return paste(), true;
        if (key == 'C') return copy(event.ShiftDown()), true;
        if (key == 'D' && !event.ShiftDown()) return fill_down(), true;
        if (key == '-' || key == WXK_NUMPAD_SUBTRACT) return remove_chosen_rows(), true;
        return false;
    }
    if (key == WXK_DELETE) return clear_chosen(), true;
    return false;
}

/// + and - on a count; the character, for where it lies on the keyboard differs.
bool EntryGrid::steps_count(const wxKeyEvent& event) {
    const std::string_view of = spec(GetGridCursorCol()).key;
    const auto sign = event.GetUnicodeKey();
    if ((of != "count" && of != "quantity") || (sign != '+' && sign != '-')) return false;
    step_count(sign == '+' ? 1 : -1);
    return true;
}

void EntryGrid::paste() {
    if (!wxTheClipboard->Open()) return;
    wxTextDataObject text;
    const bool there = wxTheClipboard->GetData(text);
    wxTheClipboard->Close();
    if (there)
        rows().paste(GetGridCursorRow(), GetGridCursorCol(),
                     cells_of(text.GetText().utf8_string()));
}

void EntryGrid::copy(bool with_titles) {
    const auto block = chosen();
    wxString text;
    const auto add_row = [&](auto cell) {
        for (int column = block.GetLeftCol(); column <= block.GetRightCol(); ++column)
            text << cell(column) << (column == block.GetRightCol() ? "\n" : "\t");
    };
    if (with_titles) add_row([&](int column) { return table_->GetColLabelValue(column); });
    for (int row = block.GetTopRow(); row <= block.GetBottomRow(); ++row)
        add_row([&](int column) { return table_->GetValue(row, column); });
    if (!wxTheClipboard->Open()) return;
    wxTheClipboard->SetData(new wxTextDataObject(text));
    wxTheClipboard->Close();
}

void EntryGrid::fill_down() {
    const auto block = chosen();
    std::vector<std::string> top;
    for (int column = block.GetLeftCol(); column <= block.GetRightCol(); ++column)
        top.push_back(table_->GetValue(block.GetTopRow(), column).utf8_string());
    const int below = block.GetBottomRow() - block.GetTopRow();
    if (below > 0)
        rows().write(block.GetTopRow() + 1, block.GetLeftCol(),
                     CellTexts(static_cast<std::size_t>(below), top));
}

void EntryGrid::clear_chosen() {
    const auto block = chosen();
    const int last = std::min(block.GetBottomRow(), rows().row_count() - 1);
    if (last < block.GetTopRow()) return;
    const auto down = static_cast<std::size_t>(last - block.GetTopRow() + 1);
    const auto across = static_cast<std::size_t>(block.GetRightCol() - block.GetLeftCol() + 1);
    rows().write(block.GetTopRow(), block.GetLeftCol(),
                 CellTexts(down, std::vector<std::string>(across)));
}

void EntryGrid::step_count(int by) {
    const std::string text = table_->GetValue(GetGridCursorRow(), GetGridCursorCol()).utf8_string();
    int count = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), count);
    if (fault != std::errc{} || end != text.data() + text.size() || count + by < 0) return;
    rows().write(GetGridCursorRow(), GetGridCursorCol(), {{std::to_string(count + by)}});
}

} // namespace backplate
