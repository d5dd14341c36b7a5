#pragma once

#include "pricing/panel/candidate.h"

namespace backplate {

/// Counts that hours hang on beside devices, points and sheets.

/// A piece in the door: its opening and how it is mounted, by the function of its part; a rule set
/// without the row, and a piece without a part, count as an operator panel in a rectangular
/// opening.
void count_in_door(BoxCounts& counts, const BillItem& item, const RuleBook& rules);

/// Days, languages, further boxes, what the client supplies.
void count_scope(PanelDesign& design, const SearchFacts& search);

/// Conductors of the incoming supply above the section of the row wires/large section: every live
/// one to and from the device, and the protective conductor.
void count_power_wires(PanelDesign& design, const SearchFacts& search);

/// The work on the enclosure itself: preparing it, by its own minutes where it states any, and its
/// factor on every opening.
void count_enclosure(BoxCounts& counts, const Housing& housing, const Suite& enclosure);

/// The lowest factor on openings among the candidates, hundredths: for bounds.
int least_cutout_hundredths(const Housing& housing);

} // namespace backplate
