#include "app/desk/display.h"

#include <gdk/gdk.h>

#include "pricing/values/faults.h"

namespace backplate {

void need_display() {
    if (!gdk_init_check(nullptr, nullptr))
        throw OutsideFault("no display can be opened; is DISPLAY or WAYLAND_DISPLAY set?");
}

} // namespace backplate
