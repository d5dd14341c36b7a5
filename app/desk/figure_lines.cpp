#include "app/desk/figure_lines.h"

#include <algorithm>

#include <wx/button.h>
#include <wx/settings.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"

namespace backplate {
namespace {

constexpr int gap = 8; // between label, figure and key

} // namespace

FigureLines::FigureLines(wxWindow* parent, const std::vector<Label>& labels,
                         std::function<void(std::size_t)> why)
    : wxPanel(parent), why_(std::move(why)) {
    int widest = 0;
    for (const Label& label : labels)
        widest = std::max(widest, GetTextExtent(wxString::FromUTF8(label.text)).x);
    auto* rows = new wxBoxSizer(wxVERTICAL);
    for (const Label& label : labels) add_line(*rows, label, widest);
    SetSizer(rows);
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        event.Skip();
        if (event.GetSize().x == wrapped_at_) return;
        wrapped_at_ = event.GetSize().x;
        CallAfter([this] { wrap_details(); });
    });
}

/// The detail has the width below the key as well.
void FigureLines::add_line(wxSizer& rows, const Label& label, int label_width) {
    const auto centred = wxSizerFlags().CenterVertical();
    auto* name = new wxStaticText(this, wxID_ANY, wxString::FromUTF8(label.text));
    name->SetMinSize(wxSize(label_width, -1));
    auto* figure =
        new wxStaticText(this, wxID_ANY, "", wxDefaultPosition, wxDefaultSize, wxST_ELLIPSIZE_END);
    figure->SetMinSize(FromDIP(wxSize(60, -1))); // cut short, never pushing the key out
    name_control(*figure, label.name, label.text);
    auto* detail = new wxStaticText(this, wxID_ANY, "");
    detail->SetForegroundColour(wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    detail->Hide();
    auto* row = new wxBoxSizer(wxHORIZONTAL);
    row->Add(name, centred);
    row->Add(figure, wxSizerFlags(1).CenterVertical().Border(wxLEFT | wxRIGHT, FromDIP(gap)));
    row->Add(make_why(label, texts_.size()), centred);
    rows.Add(row, wxSizerFlags().Expand());
    rows.Add(detail, wxSizerFlags().Border(wxLEFT, label_width + FromDIP(gap)));
    rows.AddSpacer(FromDIP(2));
    texts_.push_back({figure, detail, std::make_unique<Flash>(*figure), {}});
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
    bool other = false;
    for (std::size_t i = 0; i < std::min(lines.size(), texts_.size()); ++i) {
        set_figure(texts_[i], lines[i].figure, flash);
        other = other || texts_[i].words != lines[i].detail;
        texts_[i].words = lines[i].detail;
    }
    if (other) wrap_details();
}

/// Long details go on in a second line.
void FigureLines::wrap_details() {
    const int height = GetBestSize().y;
    const int width = GetClientSize().x - texts_.front().figure->GetPosition().x;
    for (const Texts& line : texts_) {
        line.detail->SetLabelText(wxString::FromUTF8(line.words));
        line.detail->Wrap(std::max(width, FromDIP(100)));
        line.detail->Show(!line.words.empty());
    }
    InvalidateBestSize();
    Layout();
    if (GetBestSize().y != height) GetParent()->Layout();
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
