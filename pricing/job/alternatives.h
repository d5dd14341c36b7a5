#pragma once

#include <functional>

#include "pricing/job/difference.h"
#include "pricing/price_job.h"

namespace backplate {

/// Another whole panel of the same job.
struct Alternative {
    std::string title, reason;
    Node taken_by; ///< the change of the request that takes it
    Money price;
    int digits = 2;                       ///< of its currency
    std::optional<Difference> difference; ///< against the base; nothing where that is not built
    std::vector<BoxResult> boxes;
    bool proven_cheapest = true;     ///< all systems
    int headroom = 0;                ///< further points that cost no module, all signals
    std::vector<BillLine> bill = {}; ///< tells two alternatives apart
};

/// What was tried and not offered, with the reason.
struct DroppedAlternative {
    std::string title, reason;
    std::string same_as; ///< title of the equal one, or "base"; empty: none
};

struct Alternatives {
    Estimate base;
    std::vector<Alternative> alternatives; ///< by price, then by title
    std::vector<DroppedAlternative> dropped;
};

/// Called with what is found so far, in the order of finding, each time there is one more.
using FoundSoFar = std::function<void(const Alternatives&)>;

/// The cheapest whole panel of every other platform that the request allows, of the mixes without
/// each module or controller of the base, of fewer kinds of modules, of cooler ones, of a sealed
/// box, of the next enclosure, of the own store, of the smallest size that can be built in, without
/// the parts that take longest, and without each kind of choice by hand (parts kept or left out,
/// preferred makers, own store only): each a whole run of the request with one change. The reason
/// also says which has the least heat, volume, time or kinds of parts or the most headroom of those
/// tried, and which lie nearer to the base than the estimate is sure of (P80 less P50). Dropped
/// with the reason: what nothing builds, what equals another one, what is better in nothing, and
/// what lies beyond `most`. Of a job that nothing
/// builds: boxes parted over several (parting_search.h), where that helps. Source:
/// trade-practice 6.1.
Alternatives find_alternatives(const BidRequest& request, const PriceBook& book,
                               const RuleBook& rules, std::size_t most, Work& work,
                               const FoundSoFar& found = {});

} // namespace backplate
