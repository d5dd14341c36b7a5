#include "app/desk/box_bar.h"

#include <algorithm>

#include <wx/button.h>
#include <wx/choice.h>
#include <wx/stattext.h>
#include <wx/tglbtn.h>
#include <wx/wrapsizer.h>

#include "app/desk/accessible.h"
#include "app/desk/number_entry.h"
#include "app/desk/request_fields.h"

namespace backplate {
namespace {

constexpr std::size_t most_tabs = 4;

std::string name_of(const Node& box, std::size_t index) {
    const Node* name = box.find("name");
    return name ? shown(name, '.') : "CP" + std::to_string(index + 1);
}

/// CP1, CP2 …: the first that no box bears.
std::string free_name(const Node& boxes) {
    for (std::size_t number = boxes.items.size() + 1;; ++number) {
        const std::string name = "CP" + std::to_string(number);
        bool taken = false;
        for (std::size_t i = 0; i < boxes.items.size(); ++i)
            taken = taken || name_of(boxes.items[i], i) == name;
        if (!taken) return name;
    }
}

} // namespace

BoxBar::BoxBar(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* row = new wxWrapSizer(wxHORIZONTAL, wxREMOVE_LEADING_SPACES);
    const int gap = FromDIP(6);
    tabs_ = new wxBoxSizer(wxHORIZONTAL);
    row->Add(tabs_, wxSizerFlags().CenterVertical());
    choice_ = new wxChoice(this, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(130, -1)));
    name_control(*choice_, "box", "Box in view");
    choice_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) {
        look_at(static_cast<std::size_t>(event.GetSelection()));
    });
    row->Add(choice_, wxSizerFlags().CenterVertical());
    auto* add = new wxButton(this, wxID_ANY, "+", wxDefaultPosition, FromDIP(wxSize(30, -1)),
                             wxBU_EXACTFIT);
    name_control(*add, "add_box", "Add a box");
    add->SetToolTip("Add a box (Ctrl+B)");
    add->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { add_box(false); });
    row->Add(add, wxSizerFlags().CenterVertical().Border(wxLEFT, gap));
    const auto add_field = [&](std::unique_ptr<Field>& field, const FieldSpec& spec) {
        auto* cell = new wxBoxSizer(wxHORIZONTAL);
        auto* entry = new wxBoxSizer(wxHORIZONTAL);
        field = std::make_unique<Field>(this, cell, entry, spec, state_);
        cell->Add(entry, wxSizerFlags().CenterVertical().Border(wxLEFT, gap));
        row->Add(cell, wxSizerFlags().CenterVertical().Border(wxLEFT | wxRIGHT, gap));
    };
    add_field(quantity_, box_quantity_field);
    add_field(controller_, box_controller_field);
    SetSizer(row);
}

void BoxBar::look_at(std::size_t box) {
    state_.box = box;
    state_.look();
}

void BoxBar::store(Node boxes) {
    Node request = *state_.session.request();
    request.member("boxes") = std::move(boxes);
    state_.session.replace(std::move(request));
    state_.changed();
    state_.look();
}

void BoxBar::add_box(bool like_this) {
    const Node* boxes = state_.session.value("/boxes");
    Node changed = boxes && boxes->is(Node::Kind::list) ? *boxes : Node::make_list();
    Node box = like_this && state_.box < changed.items.size()
                   ? changed.items[state_.box]
                   : *at_pointer(blank_request(), "/boxes/0");
    box.member("name") = Node::make_text(free_name(changed));
    changed.items.push_back(std::move(box));
    state_.box = changed.items.size() - 1;
    store(std::move(changed));
}

void BoxBar::remove_box() {
    const Node* boxes = state_.session.value("/boxes");
    if (!boxes || boxes->items.size() < 2 || state_.box >= boxes->items.size()) return;
    Node changed = *boxes;
    changed.items.erase(changed.items.begin() + static_cast<std::ptrdiff_t>(state_.box));
    store(std::move(changed));
}

void BoxBar::step_box(int by) {
    const auto count = static_cast<int>(names_.size());
    if (count > 0)
        look_at(static_cast<std::size_t>((static_cast<int>(state_.box) + by + count) % count));
}

void BoxBar::make_tabs(const std::vector<std::string>& names) {
    names_ = names;
    for (wxToggleButton* button : buttons_) button->Destroy();
    buttons_.clear();
    wxArrayString items;
    for (const std::string& name : names) items.Add(wxString::FromUTF8(name));
    choice_->Set(items);
    choice_->Show(names.size() > most_tabs);
    if (names.size() <= most_tabs)
        for (std::size_t i = 0; i < names.size(); ++i) {
            auto* button = new wxToggleButton(this, wxID_ANY, items[i], wxDefaultPosition,
                                              wxDefaultSize, wxBU_EXACTFIT);
            name_control(*button, "box_" + std::to_string(i + 1), "Box " + names[i]);
            button->Bind(wxEVT_TOGGLEBUTTON, [this, i](wxCommandEvent&) { look_at(i); });
            tabs_->Add(button, wxSizerFlags().CenterVertical());
            buttons_.push_back(button);
        }
    if (GetParent()->GetSizer()) GetParent()->Layout();
    Layout();
}

void BoxBar::show() {
    const Node* boxes = state_.session.value("/boxes");
    std::vector<std::string> names;
    for (std::size_t i = 0; boxes && i < boxes->items.size(); ++i)
        names.push_back(name_of(boxes->items[i], i));
    if (names != names_) make_tabs(names);
    for (std::size_t i = 0; i < buttons_.size(); ++i) buttons_[i]->SetValue(i == state_.box);
    if (choice_->IsShown()) choice_->SetSelection(static_cast<int>(state_.box));
    quantity_->show();
    controller_->show();
}

} // namespace backplate
