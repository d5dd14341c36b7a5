#include "app/desk/points_table.h"

#include <algorithm>

#include <wx/settings.h>

#include "app/desk/number_entry.h"
#include "app/desk/words.h"

namespace backplate {
namespace {

/// The allowed word in its own spelling where only the case differs; else the text as typed.
std::string known_word(const RuleBook& rules, const char* key, const std::string& typed) {
    for (const wxString& word : allowed_words(rules, key))
        if (word.IsSameAs(wxString::FromUTF8(typed).Trim().Trim(false), false))
            return word.utf8_string();
    return typed;
}

} // namespace

Node PointsTable::points() const {
    const Node* points = state_.session.value(pointer());
    return points && points->is(Node::Kind::list) ? *points : Node::make_list();
}

int PointsTable::row_count() const {
    const Node* points = state_.session.value(pointer());
    return points ? static_cast<int>(points->items.size()) : 0;
}

const Node* PointsTable::cell(int row, int column) const {
    return state_.session.value(pointer() + "/" + std::to_string(row) + "/" +
                                point_columns[column].key);
}

/// Only where the estimate's row is still of the same signal: rows may have moved since.
const Node* PointsTable::taken_cell(int row, int column) const {
    const Node* taken = state_.taken(pointer() + "/" + std::to_string(row));
    const Node* signal = cell(row, 0);
    const Node* taken_signal = taken ? taken->find("signal") : nullptr;
    if (!signal || !taken_signal || !(*signal == *taken_signal)) return nullptr;
    return taken->find(point_columns[column].key);
}

bool PointsTable::given(int row, int column) const { return cell(row, column) != nullptr; }

wxString PointsTable::GetValue(int row, int column) {
    const Node* value = given(row, column) ? cell(row, column) : taken_cell(row, column);
    return wxString::FromUTF8(shown(value, state_.decimal_mark));
}

wxString PointsTable::GetRowLabelValue(int row) {
    return row < row_count() ? wxString::Format("%d", row + 1) : wxString("+");
}

void PointsTable::put(Node& points, int row, int column, const std::string& text) const {
    const auto index = static_cast<std::size_t>(row);
    while (points.items.size() <= index) points.items.push_back(Node::make_object());
    const PointColumn& spec = point_columns[column];
    const auto value = spec.number
                           ? typed_number(text, state_.decimal_mark)
                           : typed_text(known_word(*state_.inputs->rules, spec.words, text));
    if (value)
        points.items[index].member(spec.key) = *value;
    else
        points.items[index].erase(spec.key);
}

void PointsTable::store(Node points) {
    state_.session.end_step();
    state_.session.set_value(pointer(), std::move(points));
    state_.session.end_step();
    state_.changed();
}

void PointsTable::SetValue(int row, int column, const wxString& text) {
    if (text == GetValue(row, column)) return;
    paste(row, column, {{text.utf8_string()}});
}

void PointsTable::paste(int row, int column, const std::vector<std::vector<std::string>>& cells) {
    Node changed = points();
    for (std::size_t down = 0; down < cells.size(); ++down)
        for (std::size_t across = 0; across < cells[down].size(); ++across) {
            const int target = column + static_cast<int>(across);
            if (target < GetNumberCols())
                put(changed, row + static_cast<int>(down), target, cells[down][across]);
        }
    store(std::move(changed));
}

void PointsTable::remove_rows(int first, int count) {
    Node changed = points();
    const int size = static_cast<int>(changed.items.size());
    const auto begin = changed.items.begin();
    changed.items.erase(begin + std::min(first, size), begin + std::min(first + count, size));
    store(std::move(changed));
}

wxGridCellAttr* PointsTable::GetAttr(int row, int column, wxGridCellAttr::wxAttrKind kind) {
    wxGridCellAttr* attr = wxGridTableBase::GetAttr(row, column, kind);
    if (row >= row_count() || given(row, column)) return attr;
    auto* grey = attr ? attr->Clone() : new wxGridCellAttr;
    if (attr) attr->DecRef();
    grey->SetTextColour(wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    return grey;
}

void PointsTable::follow() {
    const int rows = GetNumberRows();
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

} // namespace backplate
