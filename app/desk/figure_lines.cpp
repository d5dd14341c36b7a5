#include "app/desk/figure_lines.h"

#include <algorithm>

#include <wx/button.h>
#include <wx/settings.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"

namespace backplate {

FigureLines::FigureLines(wxWindow* parent, const std::vector<Label>& labels,
                         std::function<void(std::size_t)> why)
    : wxPanel(parent), why_(std::move(why)) {
    auto* grid = new wxFlexGridSizer(3, FromDIP(wxSize(10, 3)));
    grid->AddGrowableCol(1);
    for (const Label& label : labels) {
        grid->Add(new wxStaticText(this, wxID_ANY, wxString::FromUTF8(label.text)));
        auto* figure = new wxStaticText(this, wxID_ANY, "", wxDefaultPosition, wxDefaultSize,
                                        wxST_ELLIPSIZE_END);
        auto* detail = make_muted(this, "");
        figure->SetMinSize(FromDIP(wxSize(60, -1))); // cut short, never pushing the key out
        detail->SetMinSize(FromDIP(wxSize(60, -1)));
        name_control(*figure, label.name, label.text);
        auto* column = new wxBoxSizer(wxVERTICAL);
        column->Add(figure, wxSizerFlags().Expand());
        column->Add(detail, wxSizerFlags().Expand());
        grid->Add(column, wxSizerFlags().Expand());
        grid->Add(make_why(label, texts_.size()));
        texts_.push_back({figure, detail, std::make_unique<Flash>(*figure)});
    }
    SetSizer(grid);
}

wxWindow* FigureLines::make_why(const Label& label, std::size_t line) {
    auto* key = new wxButton(this, wxID_ANY, "why?", wxDefaultPosition, wxDefaultSize,
                             wxBU_EXACTFIT | wxBORDER_NONE);
    name_control(*key, std::string("why_") + label.name, std::string("Why: ") + label.text);
    key->SetToolTip("Formula, inputs, rule row and source of this figure");
    key->Bind(wxEVT_BUTTON, [this, line](wxCommandEvent&) { why_(line); });
    return key;
}

void FigureLines::set_lines(const std::vector<FigureLine>& lines, bool flash) {
    for (std::size_t i = 0; i < std::min(lines.size(), texts_.size()); ++i) {
        set_figure(texts_[i], lines[i].figure, flash);
        texts_[i].detail->SetLabelText(wxString::FromUTF8(lines[i].detail));
        texts_[i].detail->SetToolTip(wxString::FromUTF8(lines[i].detail));
        texts_[i].detail->Show(!lines[i].detail.empty());
    }
    Layout();
}

void FigureLines::set_figure(const Texts& line, const std::string& figure, bool flash) {
    const std::string before = line.figure->GetLabelText().utf8_string();
    if (figure == before) return;
    const bool said = flash && !before.empty();
    const std::string words = said ? "before: " + before : std::string();
    line.figure->SetLabelText(wxString::FromUTF8(figure));
    line.figure->SetToolTip(wxString::FromUTF8(said ? figure + "\n" + words : figure));
    describe_control(*line.figure, words);
    if (said) line.flash->start();
}

void FigureLines::set_stale(bool stale) {
    const auto grey = wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT);
    const auto plain = wxSystemSettings::GetColour(wxSYS_COLOUR_WINDOWTEXT);
    for (const Texts& line : texts_) {
        line.figure->SetForegroundColour(stale ? grey : plain);
        line.detail->SetForegroundColour(grey);
    }
    Refresh();
}

} // namespace backplate
