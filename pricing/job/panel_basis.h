#pragma once

#include "pricing/job/estimate.h"
#include "pricing/panel/choose_panel.h"

namespace backplate {

/// Basis of the figures of one box: fitted channels, load, supply, heat, room, terminals, wires,
/// incoming. The consumers are summed by the functions that judged the candidate.
void record_panel(const PanelChoice& choice, const BoxResult& result,
                  const std::vector<PointResult>& points, std::size_t first_point,
                  Recorder& recorder);

/// Basis of terminals, wires and the room left.
void record_counts(const PanelChoice& choice, Recorder& recorder);

/// Basis of the parts that a choice kept or put in the place of others.
void record_choices(const Estimate& estimate, Recorder& recorder);

/// Basis of the weeks to deliver.
void record_delivery(const Estimate& estimate, const RuleBook& rules, Recorder& recorder);

} // namespace backplate
