#pragma once

#include "pricing/book/price_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// A change of the request that may lead to another panel.
struct Trial {
    std::string title, reason;
    Node change;
    bool always = false; ///< stands even where it is better in nothing
};

/// Other platforms, the base without each of its modules, controllers and enclosures, with fewer
/// kinds of modules, sealed boxes, the own store, and the job without each kind of choice by hand.
std::vector<Trial> trials_of(const Estimate& base, const PriceBook& book);

/// The module of the estimate that has the most heat of its own for a channel; empty: none.
std::string warmest_module(const Estimate& estimate, const PriceBook& book);

/// The request without these parts beside those that each box leaves out already.
Node without_parts(const BidRequest& request, const std::vector<std::string>& parts);

/// A size of enclosures as changes of one box: nothing larger at the site in any direction, and no
/// enclosure of more volume.
struct SmallerSize {
    Node site, volume;
};

/// Sizes of enclosures of the book below that of the box's own, by volume. None where its enclosure
/// is not the engine's choice.
std::vector<SmallerSize> smaller_sizes(const Estimate& base, std::size_t box,
                                       const PriceBook& book);

} // namespace backplate
