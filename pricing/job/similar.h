#pragma once

#include "pricing/job/estimate_record.h"

namespace backplate {

/// A job in figures that jobs of other sizes have in common.
struct JobMeasures {
    std::int64_t points = 0;              ///< used, of all boxes
    std::optional<Money> per_point;       ///< price, to the currency's digits; nothing: no price
    std::optional<Hours> hours_per_point; ///< nothing: not built, or no points
};

JobMeasures measures_of(const EstimateRecord& record);

/// How much the points of two jobs have in common, signal by signal over all boxes: the sum of the
/// smaller counts in percent of the sum of the larger ones. 100 %: the same points; 0 %: no signal
/// in common, or no points at all.
Percent points_in_common(const EstimateRecord& one, const EstimateRecord& other);

} // namespace backplate
