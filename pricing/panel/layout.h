#pragma once

#include <string>
#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/candidate.h"

namespace backplate {

/// Where every device of a finished design stands. Supplies and mains at the top, platforms in the
/// order of their bus, what warms last in its row, terminals at the lower edge where cables enter,
/// door devices in the door; mains and extra-low voltage are parted by a row or by the partition of
/// the rules. In a suite the rows go on from plate to plate, none crosses a wall, and every door
/// and plate has places of its own. Always succeeds under the room rule, and what the reserve asks
/// for stays free.
Layout lay_out(const PanelDesign& design, const SearchFacts& search);

/// The same on any plan; nothing where its rows are too few.
std::optional<Layout> try_lay_out(const PanelDesign& design, const SearchFacts& search);

/// How often a station goes on in a further row where everything stands.
int bus_breaks(const PanelDesign& design, const SearchFacts& search);

/// A device of the rails before it has a place.
struct RailDevice {
    PlacedDevice device;
    Band band = Band::other;
    double side_mm = 0;  ///< clearance on either side
    bool joined = false; ///< plugs into the device before it
};

/// Devices of the bill that stand on the rails, in the order in which they stand; without
/// terminals.
std::vector<RailDevice> rail_devices(const PanelDesign& design, const SearchFacts& search);

/// Devices of the bill that stand elsewhere: in the door, in a wall, or without a place of their
/// own. Those of the door have no place yet.
std::vector<PlacedDevice> other_devices(const PanelDesign& design);

/// Terminals of the incoming conductors and of signals at mains voltage, and all others, by part.
struct StripTerminals {
    std::vector<TerminalCount> mains, signals;
};
StripTerminals strip_terminals(const PanelDesign& design, const SearchFacts& search);

/// Rows of terminals from the row `first_row` on: strips of at most so many pieces as the rules
/// say, more pieces where the rows need it. False, and nothing placed, where the rows are too few.
bool place_terminals(Layout& layout, const StripTerminals& terminals, std::size_t first_row,
                     const RoomRules& rules);

/// Devices of the doors of enclosures side by side: every enclosure has its share of the cooling
/// parts, other devices stand in the first door that has room for them. See place_in_door.
void place_in_doors(std::vector<PlacedDevice>& devices, int doors, double door_width_mm,
                    double door_height_mm, const RoomRules& rules);

/// Shelves of door devices from the top, fans of the filter below and their outlets above; what
/// states no size or finds no room stays without a place.
void place_in_door(std::vector<PlacedDevice>& devices, double door_width_mm, double door_height_mm,
                   const RoomRules& rules);

/// Letters and numbers of the devices, from the upper left to the lower right. Letters are those of
/// IEC 81346-2 for the main purpose of a device; modules go by A, as assemblies.
void name_devices(std::vector<PlacedDevice>& devices);

} // namespace backplate
