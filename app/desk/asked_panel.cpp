#include "app/desk/asked_panel.h"

#include <charconv>

#include <wx/button.h>
#include <wx/notebook.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"
#include "app/desk/request_fields.h"

namespace backplate {
namespace {

std::optional<std::size_t> box_of(const std::string& pointer) {
    constexpr std::string_view lead = "/boxes/";
    std::size_t number = 0;
    if (!pointer.starts_with(lead)) return std::nullopt;
    const char* first = pointer.data() + lead.size();
    const auto [end, fault] = std::from_chars(first, pointer.data() + pointer.size(), number);
    return fault == std::errc{} ? std::optional(number) : std::nullopt;
}

} // namespace

AskedPanel::AskedPanel(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    boxes_ = new BoxBar(this, state);
    rows->Add(boxes_, wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(4)));
    book_ = new wxNotebook(this, wxID_ANY);
    name_control(*book_, "pages", "What is asked");
    make_pages();
    rows->Add(book_, wxSizerFlags(1).Expand());
    refused_ =
        new wxStaticText(this, wxID_ANY, "", wxDefaultPosition, wxDefaultSize, wxST_ELLIPSIZE_END);
    refused_->SetFont(refused_->GetFont().Bold());
    name_control(*refused_, "refused", "Entry not taken");
    rows->Add(refused_, wxSizerFlags().Expand().Border(wxTOP, FromDIP(4)));
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(8)));
    SetSizer(margin);
}

FormPage* AskedPanel::add_page(const char* title) {
    auto* page = new FormPage(book_, state_);
    book_->AddPage(page, title);
    pages_.push_back(page);
    return page;
}

void AskedPanel::make_pages() {
    FormPage& points = *add_page("Points");
    points_ = &points.add_list(points_list, "", 1, 4);
    add_point_keys(points);
    points.add_list(assemblies_list, "", 0, 2);
    FormPage& site = *add_page("Site");
    for (const FieldGroup& group : site_groups()) site.add_group(group);
    FormPage& box = *add_page("Box");
    for (const FieldGroup& group : box_groups()) box.add_group(group);
    FormPage& parts = *add_page("Equipment");
    parts.add_list(equipment_list, "By the client or beside the controller", 1, 4);
    parts.add_list(keep_list, "Parts by hand", 0, 2);
    parts.add_list(replace_list, "", 0, 2);
    FormPage& job = *add_page("Job");
    for (const FieldGroup& group : job_groups()) job.add_group(group);
    FormPage& terms = *add_page("Terms");
    for (const FieldGroup& group : terms_groups()) terms.add_group(group);
}

void AskedPanel::add_point_keys(FormPage& page) {
    auto* keys = new wxBoxSizer(wxHORIZONTAL);
    const auto add_key = [&](const char* label, const char* name, const char* tip, auto act) {
        auto* key = new wxButton(&page, wxID_ANY, label);
        name_control(*key, name, label);
        key->SetToolTip(tip);
        key->Bind(wxEVT_BUTTON, [act](wxCommandEvent&) { act(); });
        keys->Add(key, wxSizerFlags().Border(wxRIGHT | wxBOTTOM, FromDIP(6)));
    };
    add_key("Add row", "add_row", "Type \"48 di\" into the empty row: count and signal at once",
            [this] { points_->go_to_new_row(); });
    add_key("Remove row", "remove_row", "Remove the chosen rows (Ctrl+Minus)",
            [this] { points_->remove_chosen_rows(); });
    page.add(keys);
}

void AskedPanel::show() {
    boxes_->show();
    for (FormPage* page : pages_) page->show();
    show_refused();
}

void AskedPanel::show_refused() {
    const wxString text =
        state_.refused.empty() ? wxString() : wxString::FromUTF8("✗ " + state_.refused);
    if (refused_->GetLabelText() == text) return;
    refused_->SetLabelText(text);
    refused_->SetToolTip(text);
    refused_->Show(!text.empty());
    Layout();
}

void AskedPanel::finish_edit() {
    for (FormPage* page : pages_) page->finish_edit();
}

void AskedPanel::turn_to(std::size_t page) {
    if (page >= pages_.size()) return;
    book_->ChangeSelection(page);
    pages_[page]->focus_first();
}

std::size_t AskedPanel::page_in_view() const {
    return static_cast<std::size_t>(book_->GetSelection());
}

std::string AskedPanel::pointer_in_focus() const {
    return pages_[page_in_view()]->pointer_in_focus();
}

std::string AskedPanel::value_in_focus() const { return pages_[page_in_view()]->value_in_focus(); }

bool AskedPanel::focus(const std::string& pointer) {
    if (const auto box = box_of(pointer); box && *box != state_.box) {
        state_.box = *box;
        state_.look();
    }
    std::size_t shared = 0;
    std::size_t nearest_page = 0;
    Field* nearest = nullptr;
    for (std::size_t i = 0; i < pages_.size(); ++i) {
        if (Field* field = pages_[i]->nearest(pointer, shared)) {
            nearest = field;
            nearest_page = i;
        }
    }
    if (!nearest || nearest->pointer().size() > pointer.size())
        for (std::size_t i = 0; i < pages_.size(); ++i)
            if (pages_[i]->go_to_list(pointer)) {
                book_->ChangeSelection(i);
                return pages_[i]->go_to_list(pointer);
            }
    for (Field* field : {&boxes_->quantity(), &boxes_->controller()})
        if (pointer.starts_with(field->pointer())) {
            field->focus();
            return true;
        }
    if (!nearest) return false;
    book_->ChangeSelection(nearest_page);
    nearest->focus();
    return true;
}

} // namespace backplate
