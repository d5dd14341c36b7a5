#pragma once

#include "pricing/job/estimate.h"

namespace backplate {

/// What `other` costs and takes more than `base`; both are built.
Difference difference_of(const Estimate& base, const Estimate& other);

/// The findings that say why nothing builds the job, in words; empty where it is built.
std::string limits_of(const Estimate& estimate);

} // namespace backplate
