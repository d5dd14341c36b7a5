#pragma once

#include <limits>
#include <map>
#include <string>
#include <vector>

#include "pricing/panel/candidate.h"

namespace backplate {

/// How often each limit refused a candidate, and how near the nearest came.
struct Refusals {
    std::map<Refusal, std::int64_t> count;
    std::int64_t most_shed = 0;
    double least_inside = std::numeric_limits<double>::infinity();
    double least_load = std::numeric_limits<double>::infinity();
    std::optional<RoomNeed> least_need; ///< of the narrowest panel that no plate held

    void note(Refusal refusal, const PanelDesign& design);
    void note_shed(std::int64_t milliwatts) { most_shed = std::max(most_shed, milliwatts); }
};

/// The limit that stopped the candidates which came furthest along the chain, in words with the
/// figures on both sides; empty where nothing was judged.
std::string binding_limit(const SearchFacts& search, const Refusals& refusals);

} // namespace backplate
