#pragma once

#include <string>

#include "app/desk/desk_state.h"
#include "app/documents.h"

class wxGrid;

namespace backplate {

class BuiltPanel;
class PricedPanel;
class RowList;
class TakeoffPage;

/// What the window shows, as JSON for tests; replaces the file where it differs from what was
/// written last.
struct ShownState {
    const DeskState& desk;
    std::string title;
    const PricedPanel& priced;
    const BuiltPanel& built;
    const RowList& findings;
    std::string send, focus;
    int asserts = 0;
    wxGrid& points;
    std::size_t page = 0;
    std::uint64_t kept = 0;
    std::string why;
    const std::vector<WrittenDocument>& documents;
    std::string said;
    const TakeoffPage& takeoff;
    bool taking_off = false;
};
void dump_state(const std::string& path, const ShownState& shown);

} // namespace backplate
