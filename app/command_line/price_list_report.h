#pragma once

#include <optional>
#include <string>

#include "catalog/library/versions.h"
#include "pricing/price_list/compare_list.h"

namespace backplate {

/// What an import of a supplier's list did, or would do.
struct PriceListReport {
    std::string file, encoding;
    PriceList list;
    ListComparison comparison;
    std::string currency; ///< of the price book
    int digits = 2;       ///< of its amounts
    bool demo_data = false;
    ListChoice choice;                    ///< which lines were asked for
    std::size_t to_put = 0;               ///< parts that change
    std::optional<ChangeSummary> applied; ///< nothing: a preview
};

/// Lines by what they say, then the sums and what was or would be changed. As text a hundred lines
/// of each outcome, all suspicious and unclear ones; with `json` all.
void print_price_list(const PriceListReport& report, bool json);

} // namespace backplate
