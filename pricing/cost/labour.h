#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/cost/drivers.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// The norms that hold for a request, with their drivers found: made once per run.
struct LabourPlan {
    struct Entry {
        const LabourNorm* norm = nullptr;
        Driver driver;
        std::int64_t micro_hours = 0; ///< likely, per unit of the driver (percent: per hour)
        std::int64_t low = 0, high = 0;
        const Rule* rate = nullptr;
        std::int64_t weight = 0; ///< cost of one unit with every share on it, 1e-10 of the currency
    };
    std::vector<Entry> counted;       ///< by counts
    std::vector<Entry> shares;        ///< of hours of named activities, in the order of the rows
    std::vector<Entry> overall;       ///< of all other hours
    std::vector<std::string> unknown; ///< rows with a driver that nothing counts
    std::int64_t own_hour_weight = 0; ///< as weight, of an hour that equipment brings along
};

/// Does the row's condition hold: "always", or terms key=value, key!=value, key>number joined by
/// " and ". Keys: scope.*, practice, approvals, spare.kind. not_stated counts as the default.
bool condition_holds(const std::string& condition, const BidRequest& request);

LabourPlan labour_plan(const BidRequest& request, const RuleBook& rules);

/// Likely labour cost before rounding, ten-thousandths of the currency: every count times its
/// weight, so that a candidate costs a few additions.
std::int64_t labour_cost(const LabourPlan& plan, const BoxCounts& counts);

/// Printed labour lines: hours of an activity rounded to 0.001 h once, cost to the currency's
/// digits. A driver `job` or a share of all other hours stands at the job. Adds their basis.
std::vector<LabourLine> labour_lines(const LabourPlan& plan, const BoxCounts& counts,
                                     const std::string& box, int digits, Recorder* recorder);

} // namespace backplate
