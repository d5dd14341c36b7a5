#pragma once

#include <string>

#include "pricing/job/price_steps.h"

namespace backplate {

/// The section of further points in the text of alternatives; empty where none was tried.
std::string price_steps_report(const FoundSteps& found, const PriceResult& price);

} // namespace backplate
