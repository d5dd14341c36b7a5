#pragma once

#include <vector>

#include "pricing/panel/choose_panel.h"

namespace backplate {

/// The panels of all boxes, in the order of the request: for every system (a box with a controller
/// and the boxes that it leads) the platform with the cheapest sum over its boxes, other boxes each
/// on its own. The stations of led boxes count against what the controller may lead; where they are
/// too many, boxes give up heads from the cheapest on. `proven` is false where another share of the
/// heads might cost less. In a system that nothing builds no box has a design.
/// Source: module-mix 2 (couplers of a controller), the couplers counted over the system.
/// A spare over the job is placed first (place_spare.h).
std::vector<PanelChoice> choose_boxes(const BidRequest& request, const PriceBook& book,
                                      const RuleBook& rules, Work& work);

/// The same for a spare that is placed: by box, in the order of the request; empty: by box.
std::vector<PanelChoice> choose_boxes(const BidRequest& request, const PriceBook& book,
                                      const RuleBook& rules, const std::vector<PlacedSpare>& spare,
                                      Work& work);

/// Places of the box and of the boxes that its controller leads, its own first.
std::vector<std::size_t> system_of(const BidRequest& request, const Box& own);

/// The panels of one system alone: `own` with the boxes that it leads, or a box without a
/// controller; nothing at the places of other boxes. For a spare by box.
std::vector<PanelChoice> choose_system(const BidRequest& request, const Box& own,
                                       const PriceBook& book, const RuleBook& rules, Work& work);

/// The spare is placed over the boxes of the job before they are sized for good.
inline bool counts_over_job(const SpareRule& spare) {
    return spare.over_job && spare.kind != SpareKind::slot;
}

} // namespace backplate
