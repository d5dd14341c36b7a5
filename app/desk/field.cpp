#include "app/desk/field.h"

#include <wx/combobox.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include "app/desk/accessible.h"
#include "app/desk/entry_check.h"
#include "app/desk/heading.h"
#include "app/desk/number_entry.h"
#include "app/desk/words.h"

namespace backplate {
namespace {

using Kind = FieldSpec::Kind;

wxArrayString words_for(const FieldSpec& spec, const RuleBook& rules) {
    wxArrayString words;
    if (spec.kind == Kind::flag) {
        words.Add("yes");
        words.Add("no");
    }
    for (const std::string& word : allowed_words(rules, spec.words))
        words.Add(wxString::FromUTF8(word));
    return words;
}

} // namespace

Field::Field(wxWindow* parent, wxSizer* label, wxSizer* entry, const FieldSpec& spec,
             DeskState& state)
    : spec_(spec), state_(state) {
    const int gap = parent->FromDIP(4);
    label_ = new wxStaticText(parent, wxID_ANY, wxString::FromUTF8(spec.label));
    label->Add(label_,
               wxSizerFlags().CenterVertical().Border(wxLEFT | wxRIGHT, spec.joined ? gap : 0));
    make_control(parent);
    name_control(*control_, spec.name, spoken());
    const std::string expected = expected_at(pointer(), *state.inputs->rules);
    if (!expected.empty()) control_->SetToolTip(wxString::FromUTF8(spoken() + ": " + expected));
    bind_events();
    entry->Add(control_, wxSizerFlags(1).CenterVertical());
    if (*spec.unit)
        entry->Add(make_muted(parent, spec.unit),
                   wxSizerFlags().CenterVertical().Border(wxLEFT, gap));
}

void Field::make_control(wxWindow* parent) {
    const bool narrow = spec_.kind == Kind::number || spec_.kind == Kind::money;
    const wxSize size(parent->FromDIP(narrow ? 48 : 80), -1);
    if (spec_.kind == Kind::word || spec_.kind == Kind::flag) {
        auto* combo = new wxComboBox(parent, wxID_ANY, "", wxDefaultPosition, size,
                                     words_for(spec_, *state_.inputs->rules));
        combo->Bind(wxEVT_COMBOBOX, [this](wxCommandEvent&) { store(); });
        control_ = combo;
        entry_ = combo;
    } else {
        auto* text = new wxTextCtrl(parent, wxID_ANY, "", wxDefaultPosition, size);
        control_ = text;
        entry_ = text;
    }
}

void Field::bind_events() {
    control_->Bind(wxEVT_TEXT, [this](wxCommandEvent&) { store(); });
    control_->Bind(wxEVT_KILL_FOCUS, [this](wxFocusEvent& event) {
        state_.session.end_step();
        if (refused_) {
            refused_ = false;
            show();
        }
        event.Skip();
    });
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
    switch (spec_.kind) {
    case Kind::number: return typed_number(text, state_.decimal_mark);
    case Kind::money: return typed_money(text, state_.decimal_mark);
    case Kind::flag: return typed_flag(text);
    case Kind::words: return typed_words(text);
    case Kind::word: return typed_text(known_word(*state_.inputs->rules, spec_.words, text));
    default: return typed_text(text);
    }
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
    Session next = state_.session;
    next.set_value(own_pointer(), spec_.element < 0 ? value : in_range(value));
    const auto why = refusal(*state_.session.request(), *next.request(), own_pointer(),
                             *state_.inputs->rules, state_.today);
    refused_ = why.has_value();
    state_.refused = why ? spoken() + ": " + *why : std::string();
    if (why) return state_.look();
    state_.session = std::move(next);
    state_.changed();
}

/// A value that was copied and waits to be confirmed bears a question mark and says so.
bool Field::mark_copied() {
    const bool waits = !state_.unconfirmed.empty() && !state_.to_confirm(pointer()).empty();
    const wxString words = wxString::FromUTF8(spec_.label + std::string(waits ? " ?" : ""));
    if (label_->GetLabelText() == words) return false;
    label_->SetLabelText(words);
    label_->SetToolTip(waits ? "Copied and not yet confirmed: Ctrl+K confirms" : "");
    describe_control(*control_, waits ? "copied, not yet confirmed" : "");
    return true;
}

bool Field::show() {
    const bool moved = mark_copied();
    if (refused_ && control_->HasFocus()) return moved;
    refused_ = false;
    const Node* sent = state_.session.value(pointer());
    if (sent && sent->is(Node::Kind::null)) sent = nullptr;
    const auto now = typed();
    const bool same = sent ? now && *now == *sent : !now;
    if (!same) entry_->ChangeValue(wxString::FromUTF8(shown(sent, state_.decimal_mark)));
    entry_->SetHint(wxString::FromUTF8(shown(state_.taken(pointer()), state_.decimal_mark)));
    return moved;
}

void Field::focus() {
    control_->SetFocus();
    entry_->SelectAll();
}

} // namespace backplate
