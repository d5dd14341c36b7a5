#pragma once

#include <set>
#include <string>
#include <vector>

#include "pricing/book/price_book.h"
#include "pricing/mix/front.h"
#include "pricing/panel/cooling.h"
#include "pricing/panel/supply.h"

namespace backplate {

/// Keys of the parts that the request names for the box: they are never left out, for keeping one,
/// or having it on the bill already, may count for more.
std::set<std::string> named_parts(const Box& box);

/// The price book without the parts that one alike and no dearer stands in for in the box.
PriceBook without_dearer_alike(const PriceBook& book, const Box& box, const BidRequest& request);

/// Supplies without those that another one stands in for at any load from `least_a` on: no dearer,
/// wider, deeper or hungrier on the mains, of no more pieces, rated for as much in air as hot and
/// cold, and losing no more. Of equal ones the first stays.
std::vector<SupplyChoice> without_beaten(std::vector<SupplyChoice> supplies, double least_a,
                                         const Site& site, const SupplyRules& rules);

/// Stages without those that another one of their kind stands in for: no dearer, hungrier or of
/// more pieces, and carrying out as much heat in air as hot and cold.
std::vector<CoolingStage> without_beaten(std::vector<CoolingStage> stages, const Site& site);

/// Modules, heads, feeds or controllers of one platform without those that another one of the list
/// stands in for: the same channels, nothing more in any sum, as hot and cold, no deeper or higher,
/// the same accessories or none, and no fewer places, bus current or stations where it gives them.
/// Of equally dear ones only an earlier one does. `stay` are never left out; what is left out is
/// added to `beaten`.
std::vector<MixModule> without_beaten(std::vector<MixModule> modules, const MixProblem& problem,
                                      const Site& site, const std::set<std::string>& stay,
                                      std::vector<const Part*>& beaten);

} // namespace backplate
