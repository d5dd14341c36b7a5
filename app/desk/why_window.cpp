#include "app/desk/why_window.h"

#include <wx/panel.h>
#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"
#include "app/desk/number_entry.h"
#include "app/desk/why_text.h"

namespace backplate {
namespace {

FigureText text_for(const DeskState& state, const Estimate& estimate) {
    return FigureText(state.decimal_mark, estimate.request.inch);
}

} // namespace

WhyWindow::WhyWindow(wxWindow* parent, DeskState& state)
    : SideWindow(parent, state, "Why? - Backplate", wxSize(760, 560)) {
    make_lists();
}

void WhyWindow::make_lists() {
    wxPanel* panel = ground();
    auto* rows = new wxBoxSizer(wxVERTICAL);
    const auto band = wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(4));
    figures_ = new RowList(panel, "why_figures", "Figures", {{"Figure"}, {"Value", 160, true}});
    rows->Add(figures_, wxSizerFlags(2).Expand().Border(wxBOTTOM, FromDIP(6)));
    formula_ = new wxTextCtrl(panel, wxID_ANY, "", wxDefaultPosition, FromDIP(wxSize(-1, 58)),
                              wxTE_MULTILINE | wxTE_READONLY | wxBORDER_NONE);
    name_control(*formula_, "why_formula", "Formula");
    rows->Add(formula_, band);
    inputs_ = new RowList(panel, "why_inputs", "Inputs of the formula",
                          {{"", 34}, {"Input"}, {"Value", 150, true}, {"From", 76}});
    rows->Add(inputs_, wxSizerFlags(3).Expand().Border(wxBOTTOM, FromDIP(6)));
    source_ = make_muted(panel, "");
    name_control(*source_, "why_source", "Rule and source");
    rows->Add(source_, band);
    rule_ = new RowList(panel, "why_rule", "Row of the rule table",
                        {{"Column", 150}, {"Cell", 210}, {"Meaning"}});
    rows->Add(rule_, wxSizerFlags(2).Expand());
    lay_out(rows);
    figures_->Bind(wxEVT_LIST_ITEM_SELECTED, [this](wxListEvent& event) {
        show_entry(static_cast<std::size_t>(event.GetIndex()));
    });
    inputs_->Bind(wxEVT_LIST_ITEM_ACTIVATED,
                  [this](wxListEvent& event) { follow(event.GetIndex()); });
    inputs_->Bind(wxEVT_LIST_ITEM_SELECTED, [this](wxListEvent& event) {
        const auto index = static_cast<std::size_t>(event.GetIndex());
        if (entry_ && index < entry_->inputs.size() &&
            entry_->inputs[index].from == BasisInput::From::rule)
            rule_->set_rows(rule_rows(entry_->inputs[index].path, state_.inputs->rule_tables));
    });
}

void WhyWindow::ask(const std::string& pointer) {
    if (!state_.good) return;
    show_inputs(true);
    answer_ = state_.good;
    const Estimate& estimate = *answer_->estimate;
    entries_ = basis_below(estimate, pointer);
    entry_ = nullptr;
    figures_->set_rows(basis_rows(entries_, estimate, text_for(state_, estimate)));
    bring_up();
    if (entries_.empty()) {
        formula_->ChangeValue("No figure here has a formula");
        inputs_->set_rows({});
        rule_->set_rows({});
        return;
    }
    show_entry(0);
    figures_->choose(0);
    figures_->SetFocus();
}

void WhyWindow::ask_value(const std::string& pointer) {
    const Node* stated = state_.session.value(pointer);
    const std::string rule = default_rule(pointer, state_.inputs->rule_tables);
    entries_.clear();
    entry_ = nullptr;
    const Estimate* estimate = state_.estimate();
    figures_->set_rows({{estimate ? figure_words(pointer, *estimate) : place_words(pointer),
                         shown(stated ? stated : state_.taken(pointer), state_.decimal_mark)}});
    formula_->ChangeValue(rule.empty() ? "No row of the rules stands behind this value"
                          : stated     ? "Stated in the request; the default below does not count"
                                       : "Not stated in the request; the default below counts");
    show_inputs(false);
    show_rule(rule, "");
    bring_up();
    rule_->SetFocus();
}

std::string WhyWindow::formula_text() const { return formula_->GetValue().utf8_string(); }

void WhyWindow::show_entry(std::size_t number) {
    if (number >= entries_.size()) return;
    entry_ = entries_[number];
    const Estimate& estimate = *answer_->estimate;
    const FigureText text = text_for(state_, estimate);
    formula_->ChangeValue(wxString::FromUTF8("= " + entry_->formula));
    inputs_->set_rows(input_rows(*entry_, estimate, text));
    show_rule(entry_->rule, entry_->source);
}

/// A value has none; its rule row has their room.
void WhyWindow::show_inputs(bool shown) {
    if (inputs_->IsShown() == shown) return;
    inputs_->Show(shown);
    ground()->Layout();
}

void WhyWindow::show_rule(const std::string& rule, const std::string& source) {
    source_->SetLabelText(wxString::FromUTF8(
        rule.empty() ? "" : "Rule " + rule + (source.empty() ? "" : " · " + source)));
    source_->SetToolTip(wxString::FromUTF8(source));
    rule_->set_rows(rule_rows(rule, state_.inputs->rule_tables));
}

/// A figure opens in its turn; a place of the request gets the cursor.
void WhyWindow::follow(long input) {
    const auto index = static_cast<std::size_t>(input);
    if (!entry_ || index >= entry_->inputs.size()) return;
    const BasisInput& to = entry_->inputs[index];
    if (to.from == BasisInput::From::figure) ask(std::string(to.path));
    if (to.from == BasisInput::From::request) state_.lead(to.path);
}

} // namespace backplate
