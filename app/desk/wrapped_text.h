#pragma once

#include <string>

#include <wx/stattext.h>

namespace backplate {

/// Muted words over the width of their parent, in as many lines as they need; without words there
/// is no line.
class WrappedText : public wxStaticText {
public:
    WrappedText(wxWindow* parent, const std::string& name, const std::string& label);

    /// `beside`: what stands left of it, in pixels.
    void show(const std::string& words, int beside = 0);
    const std::string& words() const { return words_; }

private:
    void wrap();

    std::string words_;
    int beside_ = 0;
    int wrapped_at_ = 0; ///< width of the parent
};

} // namespace backplate
