#include "app/desk/form_page.h"

#include <algorithm>

#include <wx/stattext.h>

#include "app/desk/heading.h"

namespace backplate {
namespace {

constexpr int cells_a_row = 2;

/// How much of two pointers is the same, in characters; 0 unless one is the other's beginning.
std::size_t kinship(const std::string& one, const std::string& other) {
    const std::size_t shorter = std::min(one.size(), other.size());
    if (one.compare(0, shorter, other, 0, shorter) != 0) return 0;
    const std::string& longer = one.size() > other.size() ? one : other;
    return longer.size() == shorter || longer[shorter] == '/' ? shorter : 0;
}

} // namespace

FormPage::FormPage(wxWindow* parent, DeskState& state)
    : wxScrolledWindow(parent, wxID_ANY, wxDefaultPosition, wxDefaultSize,
                       wxVSCROLL | wxTAB_TRAVERSAL),
      state_(state), rows_(new wxBoxSizer(wxVERTICAL)) {
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows_, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(6)));
    SetSizer(margin);
    SetScrollRate(0, FromDIP(12));
}

/// The labels of each column stand in line.
void FormPage::add_group(const FieldGroup& group) {
    if (*group.title)
        rows_->Add(make_subheading(this, group.title),
                   wxSizerFlags().Expand().Border(wxTOP | wxBOTTOM, FromDIP(3)));
    auto* grid = new wxFlexGridSizer(2 * cells_a_row, FromDIP(wxSize(8, 4)));
    for (int cell = 0; cell < cells_a_row; ++cell)
        grid->AddGrowableCol(static_cast<std::size_t>(2 * cell + 1), 1);
    wxSizer* entries = nullptr;
    for (const FieldSpec& spec : group.fields) {
        wxSizer* label = entries;
        if (!spec.joined) {
            label = new wxBoxSizer(wxHORIZONTAL);
            entries = new wxBoxSizer(wxHORIZONTAL);
            grid->Add(label, wxSizerFlags().CenterVertical());
            grid->Add(entries, wxSizerFlags().Expand());
        }
        fields_.push_back(std::make_unique<Field>(this, label, entries, spec, state_));
    }
    rows_->Add(grid, wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(6)));
}

EntryGrid& FormPage::add_list(const EntryList& list, const char* title, int share, int rows) {
    if (*title)
        rows_->Add(make_subheading(this, title),
                   wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(3)));
    auto* grid = new EntryGrid(this, state_, list);
    grid->SetMinSize(FromDIP(wxSize(200, 28 + 26 * rows)));
    rows_->Add(grid, wxSizerFlags(share).Expand().Border(wxBOTTOM, FromDIP(6)));
    lists_.push_back(grid);
    return *grid;
}

void FormPage::add(wxSizer* sizer) { rows_->Add(sizer, wxSizerFlags().Expand()); }

void FormPage::show() {
    bool moved = false;
    for (const auto& field : fields_) moved = field->show() || moved;
    if (moved) Layout();
    for (EntryGrid* list : lists_) list->show();
}

void FormPage::finish_edit() {
    for (EntryGrid* list : lists_) list->finish_edit();
}

Field* FormPage::nearest(const std::string& pointer, std::size_t& shared) const {
    Field* best = nullptr;
    for (const auto& field : fields_) {
        const std::size_t common = kinship(field->pointer(), pointer);
        if (common <= shared) continue;
        shared = common;
        best = field.get();
    }
    return best;
}

bool FormPage::go_to_list(const std::string& pointer) {
    return std::ranges::any_of(lists_,
                               [&](EntryGrid* list) { return list->go_to_pointer(pointer); });
}

std::string FormPage::pointer_in_focus() const { return in_focus(&EntryGrid::row_pointer); }

std::string FormPage::value_in_focus() const { return in_focus(&EntryGrid::cell_pointer); }

std::string FormPage::in_focus(std::string (EntryGrid::*of_list)() const) const {
    wxWindow* focus = wxWindow::FindFocus();
    const auto holds = [&](wxWindow* part) {
        return focus && (part == focus || part->IsDescendant(focus));
    };
    for (const auto& field : fields_)
        if (holds(field->control())) return field->pointer();
    for (EntryGrid* list : lists_)
        if (holds(list)) return (list->*of_list)();
    return {};
}

void FormPage::focus_first() {
    if (!lists_.empty() && fields_.empty())
        lists_.front()->SetFocus();
    else if (!fields_.empty())
        fields_.front()->focus();
}

} // namespace backplate
