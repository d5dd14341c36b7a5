#pragma once

#include "pricing/panel/candidate.h"

namespace backplate {

/// What grows with the modules of a panel, and what it costs at least: price, hours, terminals and
/// wires at rates that no panel undercuts.
struct MixRates {
    static constexpr std::int64_t fine = 1'000'000; ///< steps of 1e-10 in a ten-thousandth

    MixSums rate; ///< by sum, 1e-10 of the currency
    /// What rounding to whole metres, pieces and sheets may have counted too much in a panel
    /// without its modules, ten-thousandths of the currency.
    std::int64_t roundings = 0;
    std::int64_t bill_line = 0; ///< work of one more article, ten-thousandths of the currency
};

MixRates mix_rates(const SearchFacts& search);

} // namespace backplate
