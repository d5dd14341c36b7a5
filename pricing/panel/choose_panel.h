#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "pricing/panel/candidate.h"

namespace backplate {

/// A smaller box that an exact layout would fill but the room rule passes over, or a cheaper one
/// that only the size limit forbids.
struct CheaperEnclosure {
    const Part* part = nullptr;
    Money saving; ///< net price of the enclosure alone
};

/// The cheapest whole panel of a box, or why there is none.
struct PanelChoice {
    std::unique_ptr<SearchFacts> search; ///< what the design's pointers rest on
    std::optional<PanelDesign> design;
    std::string platform;
    bool proven = true;
    std::int64_t lower_bound = 0;    ///< of the direct cost where not proven, ten-thousandths
    std::vector<std::string> limits; ///< where nothing builds it: what binds, in words
    std::optional<CheaperEnclosure> smaller, beyond_size;
    bool heat_decides = false;       ///< a cheaper enclosure has the room but cannot shed the heat
    bool preference_dropped = false; ///< no panel with the parts of the preferred makers
};

/// Tries every platform, controller (or head, where another box has the controller), mix of the
/// front, supply, cooling stage and admissible enclosure by the straight chain of one candidate and
/// keeps the cheapest unrounded direct cost; ties keep the first in the order of part keys.
/// (Decision 5.) Spare in modules counts the channels of the kind of module that carries most of
/// the signal, which only the choice tells: every spare module is first counted as the smallest
/// that serves the signal. Where the cheapest panel then rests on larger ones, two cases follow:
/// they count as those, or no module larger than counted is taken. No case costs less than the one
/// it came from, so the search ends where none left is cheaper than the best panel that keeps the
/// rule. Panels in which larger modules carry the smaller share of a signal are passed over.
/// Source: trade-practice 3.2, 3.3. Parts are those that the choices leave (chosen_parts); where
/// nothing can be built with the preferred makers' parts, the others are admitted.
PanelChoice choose_panel(const BidRequest& request, const Box& box, const PriceBook& book,
                         const RuleBook& rules, Work& work, const JobShare& share = {});

/// The same from `chosen` parts, where a spare module counts as `spare_modules` says.
PanelChoice cheapest_panel(const BidRequest& request, const Box& box, const ChosenParts& chosen,
                           const RuleBook& rules, const SpareModules& spare_modules,
                           const JobShare& share, Work& work);

} // namespace backplate
