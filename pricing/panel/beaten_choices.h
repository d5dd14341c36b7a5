#pragma once

#include <vector>

#include "pricing/panel/cooling.h"
#include "pricing/panel/supply.h"

namespace backplate {

/// Supplies without those that another one stands in for at any load from `least_a` on: no dearer,
/// wider, deeper or hungrier on the mains, of no more pieces, rated for as much in air as hot and
/// cold, and losing no more. Of equal ones the first stays.
std::vector<SupplyChoice> without_beaten(std::vector<SupplyChoice> supplies, double least_a,
                                         const Site& site, const SupplyRules& rules);

/// Stages without those that another one of their kind stands in for: no dearer, hungrier or of
/// more pieces, and carrying out as much heat in air as hot and cold.
std::vector<CoolingStage> without_beaten(std::vector<CoolingStage> stages, const Site& site);

} // namespace backplate
