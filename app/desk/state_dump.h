#pragma once

#include <string>

#include "app/desk/desk_state.h"

class wxGrid;

namespace backplate {

/// What the window shows, as JSON for tests; replaces the file when complete.
struct ShownState {
    const DeskState& desk;
    std::string title, price, price_notes, focus;
    int asserts = 0;
    wxGrid& points;
};
void dump_state(const std::string& path, const ShownState& shown);

} // namespace backplate
