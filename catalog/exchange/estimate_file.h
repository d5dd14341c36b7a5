#pragma once

#include <string>

#include "pricing/job/estimate_record.h"

namespace backplate {

/// Reads what is compared of a backplate-estimate/1. Throws BadInput naming `name`, pointer and
/// expectation, also where the lines do not add up to the price.
EstimateRecord read_estimate(const std::string& name, const std::string& text);

} // namespace backplate
