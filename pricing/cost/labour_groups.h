#pragma once

#include <string>
#include <utility>
#include <vector>

#include "pricing/cost/labour.h"

namespace backplate {

/// Hours of one activity and class, millionths.
struct LabourGroup {
    std::string activity, work_class;
    bool at_job = false;
    const Rule* rate = nullptr;
    std::int64_t once = 0, each = 0; ///< each: one box, before learning
    std::int64_t all = 0;            ///< each over all boxes
    std::int64_t low = 0, high = 0;  ///< of all boxes
    std::vector<std::pair<const LabourPlan::Entry*, std::int64_t>> parts; ///< with their count
    std::int64_t hours() const { return once + all; }
};

/// Does the share count the hours of this activity and class: of those it names, else of all but
/// its own (its own class, where it says so).
bool counts_hours_of(const LabourPlan::Entry& entry, const std::string& activity,
                     const std::string& work_class);

/// Basis of hours, rate and cost of every line. `groups` and `lines` run in step; `own_hours` are
/// those that equipment brings along, thousandths.
void record_labour(const LabourPlan& plan, const std::vector<LabourGroup>& groups,
                   std::int64_t own_hours, const std::vector<LabourLine>& lines, int digits,
                   Recorder& recorder);

} // namespace backplate
