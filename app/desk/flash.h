#pragma once

#include <wx/colour.h>
#include <wx/timer.h>

class wxWindow;

namespace backplate {

/// Draws the eye to a figure that changed: its ground turns to the colour of the selection and
/// fades within a second. Where the user's desktop wants no animations nothing moves; what changed
/// stands in words anyway.
class Flash {
public:
    explicit Flash(wxWindow& shown);

    void start();
    int started() const { return started_; } ///< how often

private:
    void fade();

    wxWindow& shown_;
    wxTimer timer_;
    int steps_left_ = 0, started_ = 0;
};

/// Whether the desktop allows animations.
bool animations_wanted();

} // namespace backplate
