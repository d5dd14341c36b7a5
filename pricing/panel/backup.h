#pragma once

#include "pricing/panel/candidate.h"

namespace backplate {

/// Time without mains: the part and its pieces.
struct BackupChoice {
    const Part* part = nullptr;
    int pieces = 0;
    std::int64_t price = 0;
};

/// The cheapest backup that carries `all_on_a` and stores enough for `load_a`; never cheaper for
/// more. Nothing where the price book holds none.
/// Amperes at 24 V; price in ten-thousandths.
std::optional<BackupChoice> cheapest_backup(const SearchFacts& search, double load_a,
                                            double all_on_a);

} // namespace backplate
