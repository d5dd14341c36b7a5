#include "app/desk/panel_page.h"

#include <wx/button.h>
#include <wx/sizer.h>
#include <wx/stattext.h>

#include "app/desk/accessible.h"
#include "app/desk/heading.h"

namespace backplate {

PanelPage::PanelPage(wxWindow* parent, DrawingView::Calls calls) : wxPanel(parent) {
    calls.moved = [this] { show_marked(); };
    drawing_ = new DrawingView(this, std::move(calls));
    marked_ = make_muted(this, "");
    marked_->SetMinSize(FromDIP(wxSize(60, -1))); // cut short, never over the key
    name_control(*marked_, "marked_device", "The device marked");
    face_ = new wxButton(this, wxID_ANY, "Plate", wxDefaultPosition, wxDefaultSize,
                         wxBU_EXACTFIT | wxBORDER_NONE);
    name_control(*face_, "door", "Door or plate");
    face_->SetToolTip("Door or plate (D)");
    face_->Bind(wxEVT_BUTTON, [this](wxCommandEvent&) { drawing_->turn(!drawing_->door()); });
    auto* strip = new wxBoxSizer(wxHORIZONTAL);
    strip->Add(marked_, wxSizerFlags(1).CenterVertical().Border(wxLEFT | wxRIGHT, FromDIP(6)));
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
    const char* advice = drawing_->drawn() ? "Point at a device, or go to it with the arrows" : "";
    const wxString shown = wxString::FromUTF8(words.empty() ? advice : words);
    if (marked_->GetLabelText() != shown) marked_->SetLabelText(shown);
    const wxString leads_to = drawing_->door() ? "Plate" : "Door";
    if (face_->GetLabelText() != leads_to) face_->SetLabelText(leads_to);
    face_->Show(drawing_->has_door());
    Layout();
}

} // namespace backplate
