#include "app/desk/shop_dialog.h"

#include <wx/button.h>
#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include "app/desk/accessible.h"
#include "app/desk/answer_text.h"
#include "app/desk/heading.h"
#include "app/desk/number_entry.h"
#include "pricing/values/decimal.h"
#include "pricing/values/faults.h"

namespace backplate {

ShopDialog::ShopDialog(wxWindow* parent, const DeskState& state)
    : wxDialog(parent, wxID_ANY, "Your shop - Backplate", wxDefaultPosition, wxDefaultSize,
               wxDEFAULT_DIALOG_STYLE | wxRESIZE_BORDER),
      state_(state), job_(known_job(*state.estimate(), state.inputs->rule_tables)) {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    rows->Add(new wxStaticText(this, wxID_ANY,
                               "The norms are starting values. Five answers scale them to your "
                               "shop;\nbeside each stands what they give now for the job in view."),
              wxSizerFlags().Border(wxBOTTOM, FromDIP(10)));
    make_questions(rows);
    fault_ = new wxStaticText(this, wxID_ANY, "", wxDefaultPosition, FromDIP(wxSize(480, -1)),
                              wxST_ELLIPSIZE_END);
    fault_->SetFont(fault_->GetFont().Bold());
    name_control(*fault_, "shop_fault", "Answer not taken");
    rows->Add(fault_, wxSizerFlags().Expand().Border(wxTOP | wxBOTTOM, FromDIP(8)));
    make_keys(rows);
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(12)));
    SetSizerAndFit(margin);
    CentreOnParent();
    rate_shop_->SetFocus();
}

wxTextCtrl* ShopDialog::ask(wxSizer* grid, const char* name, const std::string& question,
                            const std::string& now, const std::string& unit) {
    grid->Add(new wxStaticText(this, wxID_ANY, wxString::FromUTF8(question)),
              wxSizerFlags().CenterVertical());
    auto* entry = new wxTextCtrl(this, wxID_ANY, "", wxDefaultPosition, FromDIP(wxSize(90, -1)));
    name_control(*entry, name, question);
    grid->Add(entry, wxSizerFlags().CenterVertical());
    grid->Add(make_muted(this, "now " + now + (unit.empty() ? "" : " " + unit)),
              wxSizerFlags().CenterVertical());
    return entry;
}

void ShopDialog::make_questions(wxSizer* rows) {
    const FigureText text(state_.decimal_mark);
    const std::string points = std::to_string(job_.points);
    auto* grid = new wxFlexGridSizer(3, FromDIP(wxSize(10, 6)));
    rate_shop_ = ask(grid, "rate_shop", "What does an hour in the workshop cost?",
                     text.number(job_.rate_shop, 2), "per hour");
    rate_engineering_ = ask(grid, "rate_engineering", "And an hour of engineering?",
                            text.number(job_.rate_engineering, 2), "per hour");
    per_point_ =
        ask(grid, "hours_per_point", "Engineering, software, test and papers of one point?",
            text.number(job_.points > 0 ? job_.other_hours / job_.points : 0, 2), "hours");
    shop_hours_ = ask(grid, "shop_hours",
                      "How long does your workshop build the job in view (" + points + " points)?",
                      text.number(job_.shop_hours, 1), "hours");
    currency_ = ask(grid, "shop_currency", "In which currency are your prices?", job_.currency, "");
    rows->Add(grid, wxSizerFlags().Expand());
}

void ShopDialog::make_keys(wxSizer* rows) {
    auto* keys = new wxBoxSizer(wxHORIZONTAL);
    auto* use = new wxButton(this, wxID_OK, "Use these");
    name_control(*use, "use_answers", "Use these answers");
    keys->AddStretchSpacer();
    keys->Add(new wxButton(this, wxID_CANCEL, "Later"), wxSizerFlags().Border(wxRIGHT, FromDIP(6)));
    keys->Add(use);
    use->SetDefault();
    use->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { accept(); });
    rows->Add(keys, wxSizerFlags().Expand());
}

double ShopDialog::answer(const wxTextCtrl& entry, const char* what) const {
    const std::string text = entry.GetValue().utf8_string();
    const auto node = typed_number(text, state_.decimal_mark);
    if (!node) return 0;
    const auto number = node->is(Node::Kind::number) ? parse_decimal(node->text) : std::nullopt;
    if (!number || number->number() <= 0)
        throw BadInput(std::string(what) + ": '" + text + "', expected a number above 0");
    return number->number();
}

void ShopDialog::accept() {
    try {
        const ShopAnswers answers{answer(*rate_shop_, "Rate of the workshop"),
                                  answer(*rate_engineering_, "Rate of engineering"),
                                  answer(*per_point_, "Hours for a point"),
                                  answer(*shop_hours_, "Hours in the workshop"),
                                  currency_->GetValue().Upper().Trim().utf8_string()};
        RuleTables changed = with_shop_answers(state_.inputs->rule_tables, answers, job_);
        const auto faults = check_rules(changed);
        if (!faults.empty())
            throw BadInput(faults.front().table + ", " + faults.front().row + ": " +
                           faults.front().text);
        rules_ = std::move(changed);
        EndModal(wxID_OK);
    } catch (const std::exception& fault) {
        fault_->SetLabelText(wxString::FromUTF8(std::string("✗ ") + fault.what()));
    }
}

} // namespace backplate
