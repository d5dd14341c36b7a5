#pragma once

#include <functional>
#include <optional>

#include "pricing/job/alternative_trials.h"
#include "pricing/job/parting.h"
#include "pricing/price_job.h"

namespace backplate {

/// A box parted over as few boxes as do.
struct FewestBoxes {
    Parting how;
    PartedBox parted;
    BidRequest request; ///< the job with the box parted
};

/// The fewest boxes, 2 to the row `most_boxes` of the table `conflicts`, over which the box can be
/// parted so that its system is built; nothing where none do, where the rules have no such row, and
/// for a box without points. `system`: places of its boxes, the controller's first. Searched by
/// doubling and halving, as if a further box made nothing harder.
std::optional<FewestBoxes> fewest_boxes(const BidRequest& request,
                                        const std::vector<std::size_t>& system, std::size_t box,
                                        Shares shares, Controllers controllers,
                                        const PriceBook& book, const RuleBook& rules, Work& work);

/// The largest share of a box by signal, with the points that come with assemblies left to those:
/// "12 DI and 6 DO".
std::string largest_share(const BidRequest& request, const Parting& how);

/// For a job that nothing builds: it with a box of every system that is not built parted over as
/// few boxes as do, once for each way of sharing and of leading. Empty where parting is of no help.
std::vector<Trial> parted_trials(const Estimate& base, const PriceBook& book, const RuleBook& rules,
                                 Work& work);

} // namespace backplate
