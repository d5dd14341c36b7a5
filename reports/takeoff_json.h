#pragma once

#include <string>
#include <vector>

#include "pricing/takeoff/propose_assemblies.h"
#include "pricing/takeoff/take_off.h"

namespace backplate {

/// backplate-takeoff/1, ending with a newline. `outcome` is import; import_with_questions where a
/// row or a sheet is asked or a row refused; ask_file where the file itself is asked. `proposal` is
/// null where the user must choose.
std::string takeoff_json(const Takeoff& takeoff, const ListReading& reading,
                         const std::vector<ProposedAssembly>& assemblies);

/// The same for a list that is refused whole: outcome refuse_file, its reason and message.
std::string refused_takeoff_json(const std::string& file, const std::string& reason,
                                 const std::string& text);

} // namespace backplate
