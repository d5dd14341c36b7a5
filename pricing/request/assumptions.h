#pragma once

#include <vector>

#include "pricing/request/fill_defaults.h"

namespace backplate {

/// One entry per group of `defaults` in which something printed was left open, and per box; equal
/// ones of several boxes once. Field and value are those of the first key that was filled in. In
/// the sentence a name that is known only after sizing, such as {rating_ka}, stays as it is.
std::vector<Assumption> assumptions_of(const Node& filled, const std::vector<FilledValue>& values,
                                       const RuleBook& rules);

} // namespace backplate
