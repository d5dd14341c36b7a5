#include "app/desk/findings.h"

#include <algorithm>
#include <utility>

#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/utils.h>

#include "app/desk/answer_text.h"
#include "app/desk/heading.h"
#include "app/desk/wrapped_text.h"
#include "reports/wording.h"

namespace backplate {
namespace {

constexpr int gap = 16; // between the heading and the finding chosen

std::string counted(std::size_t count, const char* what) {
    return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

std::string heading_text(const DeskState& state) {
    if (!state.answer) return "Findings";
    if (!state.answer->faults.empty()) return "Missing or wrong";
    if (!state.answer->error.empty()) return "No answer";
    const Estimate& estimate = *state.answer->estimate;
    std::string text;
    for (const Severity severity : {Severity::stop, Severity::warning, Severity::note}) {
        const auto count = std::ranges::count(estimate.findings, severity, &Finding::severity);
        if (count > 0)
            text +=
                counted(static_cast<std::size_t>(count), severity_word(severity).c_str()) + ", ";
    }
    return text + counted(estimate.request.assumptions.size(), "assumption");
}

} // namespace

Findings::Findings(wxWindow* parent, DeskState& state) : wxPanel(parent), state_(state) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    heading_ = make_subheading(this, "Findings");
    whole_ = new WrappedText(this, "finding", "The finding chosen");
    auto* head = new wxBoxSizer(wxHORIZONTAL);
    head->Add(heading_, wxSizerFlags().Border(wxRIGHT, FromDIP(gap)));
    head->Add(whole_);
    rows->Add(head, wxSizerFlags().Expand().Border(wxTOP | wxBOTTOM, FromDIP(4)));
    list_ = new RowList(this, "findings", "Findings and assumptions",
                        {{"Gravity", 84, false, true}, {"What", 230}, {"In words"}}, Sorting::rows);
    rows->Add(list_, wxSizerFlags(1).Expand());
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxLEFT | wxRIGHT | wxBOTTOM, FromDIP(10)));
    SetSizer(margin);
    list_->Bind(wxEVT_LIST_ITEM_ACTIVATED,
                [this](wxListEvent& e) { choose(list_->row_at(e.GetIndex())); });
    list_->Bind(wxEVT_LIST_ITEM_SELECTED, [this](wxListEvent& e) {
        show_whole(list_->row_at(e.GetIndex()));
        if (wxGetMouseState().LeftIsDown())
            CallAfter([this, row = list_->row_at(e.GetIndex())] { choose(row); });
    });
}

void Findings::choose(long row) {
    const auto index = static_cast<std::size_t>(row);
    if (index < pointers_.size()) state_.lead(pointers_[index]);
}

void Findings::choose_next() {
    if (pointers_.empty()) return;
    const long next = list_->row_after(list_->chosen());
    list_->choose(next);
    choose(next);
}

void Findings::show() {
    Doubts doubts = doubts_of(state_);
    pointers_ = std::move(doubts.pointers);
    list_->set_rows(std::move(doubts.rows));
    heading_->SetLabelText(wxString::FromUTF8(heading_text(state_)));
    show_whole(list_->chosen());
}

/// Beside the heading, so that the list gives up as little as it can.
void Findings::show_whole(long row) {
    whole_->show(list_->cut_words(row), heading_->GetBestSize().x + FromDIP(gap));
}

} // namespace backplate
