#pragma once

#include "pricing/price_job.h"

namespace backplate {

/// Devices of one kind that a further point brings into a box or takes out of it.
struct DeviceChange {
    std::string box, kind;
    std::vector<PartCount> removed, added; ///< differences; a part stands in one of them
};

/// A further point that changes more than what comes with every channel.
struct PriceStep {
    int points = 0;                   ///< it is this further point, counted from 1
    Money price_before;               ///< of the job with one point less
    std::optional<Money> price;       ///< of the job with it; nothing where nothing builds it
    std::optional<Money> point_price; ///< of each point since the step before; nothing: none
    std::vector<DeviceChange> changes;
    std::string limits; ///< why nothing builds it

    std::optional<Money> difference() const {
        return price ? std::optional(*price - price_before) : std::nullopt;
    }
};

/// What further points of one signal in one box cost. The price book holds all of them up to
/// `looked_at` but where the last step says that nothing builds it.
struct PriceSteps {
    std::string box, signal;
    std::string id;      ///< of the row of points; empty: the signal's first without one
    int boxes = 1;       ///< equal ones, each of which gets the further points
    int used = 0;        ///< points of the signal now, in one of them
    int looked_at = 0;   ///< most further points that were tried
    int free_points = 0; ///< before the first step: wiring, software and test only
    std::optional<Money> point_price; ///< of each of them; nothing: none
    std::vector<PriceStep> steps;     ///< by points
};

struct FoundSteps {
    std::vector<PriceSteps> signals; ///< by box, in the order of the points
    int runs = 0;                    ///< whole jobs priced for it, the base left out
};

/// For every signal of every box, and every row of points with an id: further points of one box
/// up to the share and least number of the table `price_steps` and one beyond the headroom, in each
/// of equal boxes. Every price is that of a whole run of the job with so many points more. Prices
/// of plain points are those before the job's rounding, the mean of their stretch. A step is proven
/// on both sides: with one point less the devices are those since the step before, with the point
/// they are others. Between two runs that show the same devices none is looked for, so a change
/// that is taken back before the next run may be missed. What comes with channels is no step:
/// terminals, wires, interfaces, rail, duct, and accessories, which follow what they belong to. No
/// steps for a job that nothing builds.
FoundSteps price_steps(const Estimate& base, const PriceBook& book, const RuleBook& rules,
                       Work& work);

/// The same where the job's circumstances ask for unit prices, else none: what its internal
/// workbook shows.
FoundSteps asked_price_steps(const Estimate& base, const PriceBook& book, const RuleBook& rules,
                             Work& work);

} // namespace backplate
