#pragma once

#include <functional>

#include "pricing/price_job.h"

namespace backplate {

/// Another part in the place of one of a box's.
struct Replacement {
    std::string part;
    bool buildable = false;
    Money price;           ///< of the whole job; 0 where nothing builds it
    Difference difference; ///< against the base
    std::string limits;    ///< why nothing builds it
};

/// The request with `by` in the place of `part` in a box. A choice by hand that led to `part`
/// gives way; where `by` is what it replaced, that choice is taken back.
Node with_replacement(Node request, std::size_t box, const std::string& part,
                      const std::string& by);

/// A whole run of the job for each part that may stand in for `part` (stand_ins), the cheapest
/// first, until eight can be built; `found` is called after each. `request` is the tree that
/// `base` was made from. Throws Stopped.
void find_replacements(const Node& request, const Estimate& base, std::size_t box,
                       const std::string& part, const PriceBook& book, const RuleBook& rules,
                       Work& work, const std::function<void(const Replacement&)>& found);

} // namespace backplate
