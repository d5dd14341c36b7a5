#include "app/desk/facts_bar.h"

#include <algorithm>

#include <wx/button.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"
#include "app/desk/price_text.h"
#include "app/desk/request_fields.h"

namespace backplate {
namespace {

std::string revision_words(const DeskState& state) {
    const Estimate* estimate = state.estimate();
    if (!estimate || !estimate->request.saved) return "no revision";
    const SavedAs& saved = *estimate->request.saved;
    return "job " + std::to_string(saved.job) + ", revision " + std::to_string(saved.revision);
}

/// True where the words changed, and with them their width.
bool set_text(wxStaticText& line, const std::string& text) {
    const wxString words = wxString::FromUTF8(text);
    if (line.GetLabelText() == words) return false;
    line.SetLabelText(words);
    return true;
}

} // namespace

FactsBar::FactsBar(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* row = new wxBoxSizer(wxHORIZONTAL);
    const auto centre = wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(8));
    const auto add_field = [&](const FieldSpec& spec, int share) {
        auto* label = new wxBoxSizer(wxHORIZONTAL);
        auto* entry = new wxBoxSizer(wxHORIZONTAL);
        fields_.push_back(std::make_unique<Field>(this, label, entry, spec, state_));
        row->Add(label, wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(5)));
        row->Add(entry, wxSizerFlags(share).CenterVertical().Border(wxRIGHT, FromDIP(10)));
    };
    add_field(title_field, 5);
    add_field(client_field, 4);
    revision_ = make_muted(this, "");
    name_control(*revision_, "revision", "Revision");
    row->Add(revision_, centre);
    add_field(due_field, 0);
    fields_.back()->control()->SetMinSize(FromDIP(wxSize(100, -1)));
    days_ = new wxStaticText(this, wxID_ANY, "");
    name_control(*days_, "days_left", "Days left");
    row->Add(days_, centre);
    send_ = new wxButton(this, wxID_ANY, "", wxDefaultPosition, wxDefaultSize);
    name_control(*send_, "may_be_sent", "May be sent");
    send_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) {
        const SendState sending = send_state(state_);
        if (!sending.pointer.empty()) state_.lead(sending.pointer);
    });
    row->Add(send_, wxSizerFlags().CenterVertical());
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(row, wxSizerFlags().Expand().Border(wxLEFT | wxRIGHT | wxTOP, FromDIP(8)));
    SetSizer(margin);
}

void FactsBar::show() {
    bool moved = false;
    for (const auto& field : fields_) moved = field->show() || moved;
    moved = set_text(*revision_, revision_words(state_)) || moved;
    moved = set_text(*days_, days_left(state_)) || moved;
    const SendState sending = send_state(state_);
    const wxString words = wxString::FromUTF8((sending.may ? "✓ " : "✗ ") + sending.words);
    if (send_->GetLabelText() != words) {
        send_->SetLabelText(words);
        send_->SetToolTip(words);
        send_->SetMinSize(wxSize(std::min(send_->GetBestSize().x, FromDIP(320)), -1));
        moved = true;
    }
    if (moved) Layout();
}

std::string FactsBar::send_text() const { return send_->GetLabelText().utf8_string(); }

bool FactsBar::focus(const std::string& pointer) {
    for (const auto& field : fields_)
        if (field->pointer() == pointer) {
            field->focus();
            return true;
        }
    return false;
}

} // namespace backplate
