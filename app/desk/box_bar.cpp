#include "app/desk/box_bar.h"

#include <wx/button.h>
#include <wx/choice.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/number_entry.h"

namespace backplate {
namespace {

constexpr FieldSpec alike{.name = "box_quantity",
                          .label = "Boxes alike",
                          .pointer = "/quantity",
                          .kind = FieldSpec::Kind::number,
                          .of_box = true};

std::string name_of(const Node& box, std::size_t index) {
    const Node* name = box.find("name");
    return name ? shown(name, '.') : "CP" + std::to_string(index + 1);
}

} // namespace

BoxBar::BoxBar(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* row = new wxBoxSizer(wxHORIZONTAL);
    const int gap = FromDIP(6);
    row->Add(new wxStaticText(this, wxID_ANY, "Box"),
             wxSizerFlags().CenterVertical().Border(wxRIGHT, gap));
    choice_ = new wxChoice(this, wxID_ANY, wxDefaultPosition, FromDIP(wxSize(110, -1)));
    name_control(*choice_, "box", "Box in view");
    choice_->Bind(wxEVT_CHOICE, [this](wxCommandEvent& event) {
        state_.box = static_cast<std::size_t>(event.GetSelection());
        state_.look();
    });
    row->Add(choice_, wxSizerFlags().CenterVertical());
    auto* add =
        new wxButton(this, wxID_ANY, "Add box", wxDefaultPosition, wxDefaultSize, wxBU_EXACTFIT);
    name_control(*add, "add_box", "Add box");
    add->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { add_box(); });
    row->Add(add, wxSizerFlags().CenterVertical().Border(wxLEFT, gap));
    row->AddStretchSpacer();
    auto* entry = new wxBoxSizer(wxHORIZONTAL);
    quantity_ = std::make_unique<Field>(this, row, entry, alike, state_);
    row->Add(entry, wxSizerFlags().CenterVertical().Border(wxLEFT, gap));
    SetSizer(row);
}

void BoxBar::add_box() {
    const Node* boxes = state_.session.value("/boxes");
    Node changed = boxes && boxes->is(Node::Kind::list) ? *boxes : Node::make_list();
    Node box = *at_pointer(blank_request(), "/boxes/0");
    box.member("name") = Node::make_text("CP" + std::to_string(changed.items.size() + 1));
    changed.items.push_back(std::move(box));
    state_.box = changed.items.size() - 1;
    state_.session.end_step();
    state_.session.set_value("/boxes", std::move(changed));
    state_.session.end_step();
    state_.changed();
    state_.look();
}

void BoxBar::show() {
    const Node* boxes = state_.session.value("/boxes");
    wxArrayString names;
    for (std::size_t i = 0; boxes && i < boxes->items.size(); ++i)
        names.Add(wxString::FromUTF8(name_of(boxes->items[i], i)));
    if (names != choice_->GetStrings()) choice_->Set(names);
    if (!names.empty()) choice_->SetSelection(static_cast<int>(state_.box));
    quantity_->show();
}

} // namespace backplate
