#pragma once

#include "pricing/panel/candidate.h"

namespace backplate {

/// Rating of a part of the power circuit: its own, else that of the rule row of its kind (and
/// function); kA. Nothing where the part is none of the power circuit, or none is known.
std::optional<double> rated_ka(const Part& part, bool north_america, const RuleBook& rules);

/// What the box is offered for: the lowest rating among the parts of its power circuit, raised
/// where a documented combination with another part of the bill says so. In north_america a part
/// without a rating takes the figure of its rule row; in iec the breaker and the switch must state
/// theirs, else the rating is not determined. Parts that no rule row names count where they state a
/// rating. Source: electrical-facts 6 (SB4.1 in part; NEC 409.110), 0; IEC 61439-1 from memory.
ShortCircuitResult short_circuit_of(const PanelDesign& design, const SearchFacts& search);

} // namespace backplate
