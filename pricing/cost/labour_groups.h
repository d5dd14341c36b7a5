#pragma once

#include <string>
#include <utility>
#include <vector>

#include "pricing/cost/labour.h"

namespace backplate {

/// Rows that make up some hours of a box.
struct LabourPart {
    const LabourPlan* plan = nullptr;
    const LabourPlan::Entry* entry = nullptr;
    std::int64_t count = 0; ///< of the driver; 0: a share of other hours
};

/// Hours of one activity and class, millionths.
struct LabourGroup {
    std::string activity, work_class;
    std::size_t box = 0; ///< place in the job; hours of the job count to the first box
    bool at_job = false;
    const Rule* rate = nullptr;
    std::int64_t once = 0, each = 0; ///< each: one box, before learning
    std::int64_t all = 0;            ///< each over all boxes
    std::int64_t low = 0, high = 0;  ///< of all boxes
    std::int64_t own_hours = 0;      ///< that equipment brings along, of one box; thousandths
    std::vector<LabourPart> parts;
    std::int64_t hours() const { return once + all; }
};

/// Does the share count the hours of this activity and class: of those it names, else of all but
/// its own (its own class, where it says so).
bool counts_hours_of(const LabourPlan::Entry& entry, const std::string& activity,
                     const std::string& work_class);

/// Basis of hours, rate and cost of every line. `groups` and `lines` run in step.
void record_labour(const std::vector<LabourGroup>& groups, const std::vector<LabourLine>& lines,
                   int digits, Recorder& recorder);

} // namespace backplate
