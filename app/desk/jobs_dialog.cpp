#include "app/desk/jobs_dialog.h"

#include <algorithm>
#include <sstream>

#include <wx/button.h>
#include <wx/sizer.h>
#include <wx/stattext.h>
#include <wx/textctrl.h>

#include "app/desk/accessible.h"
#include "app/desk/answer_text.h"
#include "app/desk/heading.h"
#include "app/job_saving.h"

namespace backplate {

JobsDialog::JobsDialog(wxWindow* parent, std::vector<JobHead> jobs, const DeskState& state)
    : wxDialog(parent, wxID_ANY, "Jobs - Backplate", wxDefaultPosition,
               parent->FromDIP(wxSize(820, 520)), wxDEFAULT_DIALOG_STYLE | wxRESIZE_BORDER),
      jobs_(std::move(jobs)), state_(state) {
    std::ranges::reverse(jobs_);
    make_controls();
    show_found();
    CentreOnParent();
    words_->SetFocus();
}

void JobsDialog::make_controls() {
    auto* rows = new wxBoxSizer(wxVERTICAL);
    auto* find = new wxBoxSizer(wxHORIZONTAL);
    find->Add(new wxStaticText(this, wxID_ANY, "Find"),
              wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(8)));
    words_ = new wxTextCtrl(this, wxID_ANY);
    name_control(*words_, "job_words", "Words of the job");
    words_->SetHint("number, title, state, due date or price");
    find->Add(words_, wxSizerFlags(1).CenterVertical());
    rows->Add(find, wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(6)));
    list_ = new RowList(this, "jobs", "Saved jobs",
                        {{"Number", 66, true},
                         {"Title"},
                         {"State", 84},
                         {"Revision", 70, true},
                         {"Due", 86},
                         {"Price", 120, true}},
                        Sorting::rows);
    rows->Add(list_, wxSizerFlags(1).Expand().Border(wxBOTTOM, FromDIP(4)));
    count_ = make_muted(this, "");
    rows->Add(count_, wxSizerFlags().Expand().Border(wxBOTTOM, FromDIP(8)));
    rows->Add(make_keys(), wxSizerFlags().Expand());
    auto* margin = new wxBoxSizer(wxVERTICAL);
    margin->Add(rows, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(12)));
    SetSizer(margin);
    words_->Bind(wxEVT_TEXT, [this](wxCommandEvent&) { show_found(); });
    list_->Bind(wxEVT_LIST_ITEM_ACTIVATED, [this](wxListEvent&) { end(false); });
    Bind(wxEVT_CHAR_HOOK, [this](wxKeyEvent& event) {
        if (!act_on(event)) event.Skip();
    });
}

wxSizer* JobsDialog::make_keys() {
    auto* keys = new wxBoxSizer(wxHORIZONTAL);
    auto* copy = new wxButton(this, wxID_ANY, "Copy as &template");
    name_control(*copy, "copy_as_template", "Copy as template");
    auto* close = new wxButton(this, wxID_CANCEL);
    auto* open = new wxButton(this, wxID_OK, "&Open");
    open->SetDefault();
    keys->Add(copy);
    keys->AddStretchSpacer();
    keys->Add(close, wxSizerFlags().Border(wxRIGHT, FromDIP(8)));
    keys->Add(open);
    copy->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { end(true); });
    open->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { end(false); });
    return keys;
}

/// The arrows go through the list while the words are typed.
bool JobsDialog::act_on(const wxKeyEvent& event) {
    const int key = event.GetKeyCode();
    if (key == WXK_RETURN && words_->HasFocus()) return end(event.ControlDown()), true;
    if (!words_->HasFocus() || (key != WXK_DOWN && key != WXK_UP)) return false;
    const long next = key == WXK_DOWN ? list_->row_after(list_->chosen()) : list_->chosen() - 1;
    list_->choose(next);
    return true;
}

void JobsDialog::show_found() {
    std::istringstream typed(words_->GetValue().utf8_string());
    std::vector<std::string> words;
    for (std::string word; typed >> word;) words.push_back(word);
    found_.clear();
    std::ranges::copy_if(jobs_, std::back_inserter(found_),
                         [&](const JobHead& job) { return holds_words(job, words); });
    const FigureText text(state_.decimal_mark);
    TextRows rows;
    for (const JobHead& job : found_) {
        const auto price = Money::parse(job.price);
        const std::string amount =
            price ? text.money(*price, 2) + " " + job.currency : std::string("–");
        rows.push_back({std::to_string(job.number), job.title, std::string(state_word(job.state)),
                        std::to_string(job.revision), job.due, amount});
    }
    list_->set_rows(std::move(rows));
    if (!found_.empty()) list_->choose(0);
    count_->SetLabelText(wxString::FromUTF8(std::to_string(found_.size()) + " of " +
                                            std::to_string(jobs_.size()) +
                                            " jobs; Return opens, Ctrl+Return copies as template"));
}

void JobsDialog::end(bool as_template) {
    const auto index = static_cast<std::size_t>(std::max(0L, list_->chosen()));
    if (index >= found_.size()) return;
    number_ = found_[index].number;
    as_template_ = as_template;
    EndModal(wxID_OK);
}

} // namespace backplate
