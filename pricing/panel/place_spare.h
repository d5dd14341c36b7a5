#pragma once

#include "pricing/panel/choose_boxes.h"

namespace backplate {

/// The panels of all boxes with a spare that counts over the job: boxes are sized without spare,
/// channels that stay idle take spare first, and what is left of a signal goes whole into the box
/// where it costs least, signal by signal. Where several boxes have the signal the result is not
/// proven; the bound of a box is its panel without spare. Source: trade-practice 3.2 (decision on
/// the scope of spare); the placing is ours.
std::vector<PanelChoice> with_placed_spare(const BidRequest& request, const PriceBook& book,
                                           const RuleBook& rules, Work& work);

} // namespace backplate
