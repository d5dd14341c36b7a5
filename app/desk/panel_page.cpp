#include "app/desk/panel_page.h"

#include <wx/button.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"

namespace backplate {
namespace {

constexpr const char* part_mark = " · ";

/// Words in two lines, parted where the first is full; what has no mark stays in the first.
std::pair<wxString, wxString> in_two(const wxString& words, const wxWindow& line) {
    const wxString mark = wxString::FromUTF8(part_mark);
    if (line.GetTextExtent(words).x <= line.GetSize().x) return {words, {}};
    std::size_t end = words.size();
    while (end != wxString::npos && end > 0 &&
           line.GetTextExtent(words.Left(end)).x > line.GetSize().x)
        end = words.rfind(mark, end - 1);
    if (end == wxString::npos || end == 0) return {words, {}};
    return {words.Left(end), words.Mid(end + mark.size())};
}

} // namespace

PanelPage::PanelPage(wxWindow* parent, DrawingView::Calls calls) : wxPanel(parent) {
    calls.moved = [this] { show_marked(); };
    drawing_ = new DrawingView(this, std::move(calls));
    marked_ = make_muted(this, "");
    name_control(*marked_, "marked_device", "The device marked");
    more_ = make_muted(this, "");
    name_control(*more_, "marked_device_more", "More of the device marked");
    for (wxStaticText* line : {marked_, more_})
        line->SetMinSize(FromDIP(wxSize(60, -1))); // cut short, never over the key
    face_ = new wxButton(this, wxID_ANY, "Plate", wxDefaultPosition, wxDefaultSize,
                         wxBU_EXACTFIT | wxBORDER_NONE);
    name_control(*face_, "door", "Door or plate");
    face_->SetToolTip("Door or plate (D)");
    face_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { drawing_->turn(!drawing_->door()); });
    auto* strip = new wxBoxSizer(wxHORIZONTAL);
    auto* lines = new wxBoxSizer(wxVERTICAL);
    lines->SetMinSize(-1, 2 * marked_->GetCharHeight()); // the drawing keeps its size
    lines->AddStretchSpacer();
    for (wxStaticText* line : {marked_, more_}) lines->Add(line, wxSizerFlags().Expand());
    lines->AddStretchSpacer();
    strip->Add(lines, wxSizerFlags(1).Expand().Border(wxLEFT | wxRIGHT, FromDIP(6)));
    strip->Add(face_, wxSizerFlags().CenterVertical());
    auto* rows = new wxBoxSizer(wxVERTICAL);
    rows->Add(drawing_, wxSizerFlags(1).Expand());
    rows->Add(strip, wxSizerFlags().Expand().Border(wxRIGHT, FromDIP(4)));
    SetSizer(rows);
    show_marked();
}

/// Called by the drawing too, from its making on.
void PanelPage::show_marked() {
    if (!face_) return;
    const std::string& words = drawing_->words();
    const char* advice = drawing_->drawn() ? "Point at a device, or use the arrows" : "";
    const auto [first, rest] = in_two(wxString::FromUTF8(words.empty() ? advice : words), *marked_);
    if (marked_->GetLabelText() != first) marked_->SetLabelText(first);
    if (more_->GetLabelText() != rest) more_->SetLabelText(rest);
    more_->Show(!rest.empty());
    const wxString leads_to = drawing_->door() ? "Plate" : "Door";
    if (face_->GetLabelText() != leads_to) face_->SetLabelText(leads_to);
    face_->Show(drawing_->has_door());
    Layout();
}

} // namespace backplate
