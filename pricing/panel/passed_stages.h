#pragma once

#include "pricing/panel/candidate.h"

namespace backplate {

/// Of every kind of cooling that costs less than the one taken, the part that would do most in the
/// enclosure chosen, and why it does not do: the heat that could leave against the heat inside,
/// or what keeps it from the box. A stage that would do cost more with what it needs. None where
/// the box is sealed or unknown.
std::vector<PassedStage> passed_stages(const PanelDesign& design, const SearchFacts& search,
                                       Work& work);

} // namespace backplate
