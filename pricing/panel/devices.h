#pragma once

#include "pricing/panel/candidate.h"

namespace backplate {

/// Role of a piece of equipment on the bill.
std::string role_of_equipment(const EquipmentFact& fact);

/// The lines of the bill that stand before an enclosure is chosen, in their order of printing.
std::vector<BillItem> devices_of(const PanelDesign& design, const SearchFacts& search);

/// Terminals, wires and every count that hours hang on, from the devices of the bill.
void count_devices(PanelDesign& design, const SearchFacts& search);

/// Strips of terminals by the room rule, one of signals at mains voltage among them.
int strips_of(const PanelDesign& design, const SearchFacts& search);

/// What the devices ask of a plate.
RoomNeed room_need(const PanelDesign& design, const SearchFacts& search);

/// Band of a bill line; nothing where it takes no rail.
std::optional<Band> band_on_rail(const BillItem& item);
double width_on_rail(const BillItem& item, const RoomRules& rules);

} // namespace backplate
