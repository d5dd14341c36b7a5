#include "app/desk/field.h"

#include <wx/combobox.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"
#include "app/desk/number_entry.h"
#include "app/desk/words.h"

namespace backplate {
Field::Field(wxWindow* parent, wxSizer* label, wxSizer* entry, const FieldSpec& spec,
             DeskState& state)
    : spec_(spec), state_(state) {
    const int gap = parent->FromDIP(4);
    label->Add(new wxStaticText(parent, wxID_ANY, wxString::FromUTF8(spec.label)),
               wxSizerFlags().CenterVertical().Border(wxLEFT | wxRIGHT, spec.joined ? gap : 0));
    const wxSize size(parent->FromDIP(spec.kind == FieldSpec::Kind::number ? 48 : 100), -1);
    if (spec.kind == FieldSpec::Kind::word) {
        auto* combo = new wxComboBox(parent, wxID_ANY, "", wxDefaultPosition, size,
                                     allowed_words(*state.inputs->rules, spec.words));
        combo->Bind(wxEVT_COMBOBOX, [this](wxCommandEvent&) { store(); });
        control_ = combo;
        entry_ = combo;
    } else {
        auto* text = new wxTextCtrl(parent, wxID_ANY, "", wxDefaultPosition, size);
        control_ = text;
        entry_ = text;
    }
    name_control(*control_, spec.name, *spec.spoken ? spec.spoken : spec.label);
    control_->Bind(wxEVT_TEXT, [this](wxCommandEvent&) { store(); });
    control_->Bind(wxEVT_KILL_FOCUS, [this](wxFocusEvent& event) {
        state_.session.end_step();
        event.Skip();
    });
    entry->Add(control_, wxSizerFlags(1).CenterVertical());
    if (*spec.unit)
        entry->Add(make_muted(parent, spec.unit),
                   wxSizerFlags().CenterVertical().Border(wxLEFT, gap));
}

/// A figure by signal is shown and changed in its default; the exceptions stay.
std::string Field::own_pointer() const {
    std::string pointer = spec_.of_box ? state_.box_pointer() + spec_.pointer : spec_.pointer;
    const Node* sent = state_.session.value(pointer);
    return sent && sent->is(Node::Kind::object) ? pointer + "/default" : pointer;
}

std::string Field::pointer() const {
    return spec_.element < 0 ? own_pointer() : own_pointer() + "/" + std::to_string(spec_.element);
}

std::optional<Node> Field::typed() const {
    const std::string text = entry_->GetValue().utf8_string();
    return spec_.kind == FieldSpec::Kind::number ? typed_number(text, state_.decimal_mark)
                                                 : typed_text(text);
}

/// The whole range with this end changed: the other end as sent, else as it was taken. A range
/// without a given end is absent.
std::optional<Node> Field::in_range(std::optional<Node> end) const {
    const Node* sent = state_.session.value(own_pointer());
    const Node* range = sent ? sent : state_.taken(own_pointer());
    Node changed = range && range->is(Node::Kind::list) ? *range : Node::make_list();
    changed.items.resize(2);
    changed.items[static_cast<std::size_t>(spec_.element)] = end ? *std::move(end) : Node{};
    const bool empty =
        changed.items[0].is(Node::Kind::null) && changed.items[1].is(Node::Kind::null);
    return empty ? std::nullopt : std::optional(std::move(changed));
}

void Field::store() {
    const auto value = typed();
    state_.session.set_value(own_pointer(), spec_.element < 0 ? value : in_range(value));
    state_.changed();
}

void Field::show() {
    const Node* sent = state_.session.value(pointer());
    if (sent && sent->is(Node::Kind::null)) sent = nullptr;
    const auto now = typed();
    const bool same = sent ? now && *now == *sent : !now;
    if (!same) entry_->ChangeValue(wxString::FromUTF8(shown(sent, state_.decimal_mark)));
    entry_->SetHint(wxString::FromUTF8(shown(state_.taken(pointer()), state_.decimal_mark)));
}

void Field::focus() {
    control_->SetFocus();
    entry_->SelectAll();
}

} // namespace backplate
