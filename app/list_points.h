#pragma once

#include <string>
#include <vector>

#include "pricing/request/node.h"
#include "pricing/takeoff/take_off.h"

namespace backplate {

/// What writing points into a request did.
struct WrittenPoints {
    struct BoxPoints {
        std::string box;
        int points = 0;
        bool is_new = false;
    };
    std::vector<BoxPoints> boxes;
    std::vector<int> rows_without_panel; ///< not written: other rows name a panel, these do not
};

/// Puts the counted points into a request: a box that bears a panel's name gets its `points`
/// replaced and keeps the rest, other panels become new boxes at the end. A list without panels
/// goes into the only box, else into CP1. Points of equal signal, wiring, volts and HART make one
/// line, lines of one signal together, each point with its tag, text and origin. `request` may be
/// null (a new one is made). Throws BadInput naming `name` where it is no request.
WrittenPoints write_points(Node& request, const std::string& name, const Takeoff& takeoff,
                           const std::string& list_file);

} // namespace backplate
