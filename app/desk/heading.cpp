#include "app/desk/heading.h"

#include <wx/settings.h>
#include <wx/stattext.h>

namespace backplate {

wxStaticText* make_heading(wxWindow* parent, const std::string& text) {
    auto* heading = new wxStaticText(parent, wxID_ANY, wxString::FromUTF8(text));
    heading->SetFont(heading->GetFont().Bold().Scaled(1.15F));
    return heading;
}

wxStaticText* make_subheading(wxWindow* parent, const std::string& text) {
    auto* heading = new wxStaticText(parent, wxID_ANY, wxString::FromUTF8(text));
    heading->SetFont(heading->GetFont().Bold());
    return heading;
}

wxStaticText* make_muted(wxWindow* parent, const std::string& text) {
    auto* line = new wxStaticText(parent, wxID_ANY, wxString::FromUTF8(text), wxDefaultPosition,
                                  wxDefaultSize, wxST_ELLIPSIZE_END);
    line->SetForegroundColour(wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    return line;
}

} // namespace backplate
