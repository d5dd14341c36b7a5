#pragma once

#include <string>
#include <vector>

#include "pricing/takeoff/take_off.h"

namespace backplate {

/// Tags of a box whose points are those of an assembly; a proposal, never applied unasked.
struct ProposedAssembly {
    std::vector<std::string> assemblies; ///< that bring these points, in the order of the rules
    std::string panel;
    std::vector<std::string> tags;
};

/// Devices whose points share a tag and are what an assembly of the rules brings for each piece.
/// A tag is what stands
/// before a dot, where others with the same beginning have one: "P-101.RUN" belongs to "P-101".
std::vector<ProposedAssembly> propose_assemblies(const Takeoff& takeoff, const RuleBook& rules);

} // namespace backplate
