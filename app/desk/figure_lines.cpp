#include "app/desk/figure_lines.h"

#include <algorithm>

#include <wx/settings.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"

namespace backplate {

FigureLines::FigureLines(wxWindow* parent, const std::vector<Label>& labels) : wxPanel(parent) {
    auto* grid = new wxFlexGridSizer(2, FromDIP(wxSize(12, 5)));
    grid->AddGrowableCol(1);
    for (const Label& label : labels) {
        grid->Add(new wxStaticText(this, wxID_ANY, wxString::FromUTF8(label.text)));
        auto* figure = new wxStaticText(this, wxID_ANY, "", wxDefaultPosition, wxDefaultSize,
                                        wxST_ELLIPSIZE_END);
        auto* detail = make_muted(this, "");
        name_control(*figure, label.name, label.text);
        auto* column = new wxBoxSizer(wxVERTICAL);
        column->Add(figure, wxSizerFlags().Expand());
        column->Add(detail, wxSizerFlags().Expand());
        grid->Add(column, wxSizerFlags().Expand());
        texts_.push_back({figure, detail});
    }
    SetSizer(grid);
}

void FigureLines::set_lines(const std::vector<FigureLine>& lines) {
    for (std::size_t i = 0; i < std::min(lines.size(), texts_.size()); ++i) {
        texts_[i].figure->SetLabelText(wxString::FromUTF8(lines[i].figure));
        texts_[i].figure->SetToolTip(wxString::FromUTF8(lines[i].figure));
        texts_[i].detail->SetLabelText(wxString::FromUTF8(lines[i].detail));
        texts_[i].detail->SetToolTip(wxString::FromUTF8(lines[i].detail));
        texts_[i].detail->Show(!lines[i].detail.empty());
    }
    Layout();
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
