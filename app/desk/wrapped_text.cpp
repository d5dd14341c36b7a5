#include "app/desk/wrapped_text.h"

#include <algorithm>

#include <wx/settings.h>

#include "app/desk/accessible.h"

namespace backplate {

WrappedText::WrappedText(wxWindow* parent, const std::string& name, const std::string& label)
    : wxStaticText(parent, wxID_ANY, "") {
    SetForegroundColour(wxSystemSettings::GetColour(wxSYS_COLOUR_GRAYTEXT));
    name_control(*this, name, label);
    Hide();
    parent->Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        event.Skip();
        if (event.GetSize().x == wrapped_at_) return;
        wrapped_at_ = event.GetSize().x;
        CallAfter([this] { wrap(); });
    });
}

void WrappedText::show(const std::string& words, int beside) {
    if (words == words_ && beside == beside_) return;
    words_ = words;
    beside_ = beside;
    wrap();
}

/// The margin is that of the widest sizer around it.
void WrappedText::wrap() {
    const bool shown = !words_.empty();
    const int height = IsShown() ? GetBestSize().y : 0;
    SetLabelText(wxString::FromUTF8(words_));
    Wrap(std::max(GetParent()->GetClientSize().x - beside_ - FromDIP(24), FromDIP(100)));
    Show(shown);
    InvalidateBestSize();
    if ((shown ? GetBestSize().y : 0) != height) GetParent()->SendSizeEvent();
}

} // namespace backplate
