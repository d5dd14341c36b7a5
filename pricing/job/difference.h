#pragma once

#include "pricing/job/estimate.h"

namespace backplate {

/// What `other` costs and takes more than `base`; both are built.
Difference difference_of(const Estimate& base, const Estimate& other);

/// Whether the estimate has a panel for the box; no finding says that nothing builds it.
bool box_built(const Estimate& estimate, const std::string& box);

/// The findings that say why nothing builds the job, in words; empty where it is built.
std::string limits_of(const Estimate& estimate);

} // namespace backplate
