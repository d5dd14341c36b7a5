#include "app/desk/flash.h"

#include <gtk/gtk.h>
#include <wx/settings.h>
#include <wx/window.h>

namespace backplate {
namespace {

constexpr int step_ms = 60;
constexpr int steps = 14;
constexpr double strongest = 0.45; // share of the selection's colour: text stays readable on it

wxColour between(const wxColour& ground, const wxColour& mark, double share) {
    const auto mixed = [share](unsigned char a, unsigned char b) {
        return static_cast<unsigned char>(a + (b - a) * share);
    };
    return {mixed(ground.Red(), mark.Red()), mixed(ground.Green(), mark.Green()),
            mixed(ground.Blue(), mark.Blue())};
}

} // namespace

bool animations_wanted() {
    gboolean wanted = TRUE;
    if (GtkSettings* settings = gtk_settings_get_default())
        g_object_get(settings, "gtk-enable-animations", &wanted, nullptr);
    return wanted == TRUE;
}

Flash::Flash(wxWindow& shown) : shown_(shown) {
    timer_.Bind(wxEVT_TIMER, [this](wxTimerEvent&) { fade(); });
}

void Flash::start() {
    if (!animations_wanted()) return;
    ++started_;
    steps_left_ = steps;
    timer_.Start(step_ms);
    fade();
}

void Flash::fade() {
    if (--steps_left_ <= 0) {
        timer_.Stop();
        shown_.SetBackgroundColour(wxNullColour);
    } else {
        shown_.SetBackgroundColour(between(wxSystemSettings::GetColour(wxSYS_COLOUR_BTNFACE),
                                           wxSystemSettings::GetColour(wxSYS_COLOUR_HIGHLIGHT),
                                           strongest * steps_left_ / steps));
    }
    shown_.Refresh();
}

} // namespace backplate
