#pragma once

#include <set>
#include <string>
#include <utility>

#include "pricing/job/estimate.h"

namespace backplate {

/// Names of the parts and the rule rows (table, row) that an estimate rests on: those of its bill,
/// choices, basis, assumptions, findings and sentences.
struct RowNames {
    std::set<std::string> parts;
    std::set<std::pair<std::string, std::string>> rules;
};
RowNames rows_used(const Estimate& estimate);

} // namespace backplate
