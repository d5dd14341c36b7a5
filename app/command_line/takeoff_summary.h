#pragma once

#include <string>
#include <vector>

#include "pricing/takeoff/propose_assemblies.h"
#include "pricing/takeoff/take_off.h"

namespace backplate {

/// What a list holds, for a terminal: points per panel and signal, spare rows, what was not
/// counted and why, questions (one line per reason and proposal, with all its rows), warnings.
std::string takeoff_summary(const Takeoff& takeoff, const ListReading& reading,
                            const std::vector<ProposedAssembly>& assemblies);

/// "1, 2, 5 to 9": row numbers, runs of three and more shortened.
std::string row_numbers_text(const std::vector<int>& rows);

} // namespace backplate
