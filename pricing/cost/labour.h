#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/cost/drivers.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// The norms that hold for one kind of box, with their drivers found: made once per run. Hours of
/// rows `once` count once for all equal boxes, the others for each; rows that learn follow the
/// learning curve, the rest is times the quantity. A box that repeats another has no rows `once`
/// but those of the job.
struct LabourPlan {
    struct Entry {
        const LabourNorm* norm = nullptr;
        Driver driver;
        std::int64_t micro_hours =
            0; ///< likely, per unit of the driver in one box (percent: per hour)
        std::int64_t low = 0, high = 0;
        const Rule* rate = nullptr;
        std::int64_t hand_factor = million; ///< millionths
        std::int64_t weight = 0; ///< cost of one unit in every box with every share on it, 1e-10
        /// What the counts cost by weight, 1e-10.
        std::int64_t cost(const BoxCounts& counts) const;
    };
    static constexpr std::int64_t million = 1000000;
    std::vector<Entry> counted;       ///< by counts
    std::vector<Entry> shares;        ///< of hours of named activities, in the order of the rows
    std::vector<Entry> overall;       ///< of all other hours
    std::vector<std::string> unknown; ///< rows with a driver that nothing counts
    std::int64_t own_hour_weight = 0; ///< as weight, of an hour that equipment brings along
    std::size_t box_index = 0;
    int boxes = 1;
    std::int64_t batch = million; ///< hours of all boxes in hours of the first, millionths
    std::vector<const HandFactor*> factors; ///< switched on
    const Rule* most_factor = nullptr;
    const ExchangeRate* exchange = nullptr; ///< of the job's currency, where it has a row
};

LabourPlan labour_plan(const BidRequest& request, const Box& box, const RuleBook& rules);

/// Likely labour cost of all boxes before rounding, ten-thousandths of the currency: every count
/// times its weight, so that a candidate costs a few additions.
std::int64_t labour_cost(const LabourPlan& plan, const BoxCounts& counts);

/// One kind of box of the job with what its hours are counted by.
struct BoxLabour {
    const LabourPlan* plan = nullptr;
    const BoxCounts* counts = nullptr;
    std::string name;
};

/// Printed labour lines of all boxes of all kinds: hours of an activity rounded to 0.001 h, `once`
/// and `each` (one box, before learning) apart; hours = once + each over all boxes after learning;
/// cost to the currency's digits. A driver `job` or a share of all other hours stands at the job;
/// hours of the job count to the shares of the first box. Several kinds of boxes one after the
/// other, the job last. Adds their basis.
std::vector<LabourLine> labour_lines(const std::vector<BoxLabour>& boxes, int digits,
                                     Recorder* recorder);

} // namespace backplate
