#pragma once

#include <optional>
#include <vector>

#include "pricing/book/rule_book.h"

namespace backplate {

/// VA by which a control transformer is selected: of what is on and of what pulls in meanwhile,
/// √(sealed² + inrush²). Source: electrical-facts 6 (S51).
double selection_va(double sealed_va, double inrush_va);

/// Share of the nameplate, 0 to 1, that the sealed VA may take: the selection VA stays within the
/// inrush that the transformer gives, and the sealed VA within its nameplate.
double nameplate_share(const TransformerRules& rules);

/// The most that a protective device may be rated for, NEC 450.3(B).
struct DeviceLimit {
    double percent = 0; ///< of the rated current of the side
    double amps = 0;
    bool round_up = false; ///< where no standard rating equals it, the next above is allowed
};

/// Of the device on the primary side, whose rated current is `amps`; alone or beside one on the
/// secondary side.
DeviceLimit primary_limit(double amps, bool alone, const TransformerRules& rules);
DeviceLimit secondary_limit(double amps, const TransformerRules& rules);

/// The highest of the ratings within the limit, or the next above where that is allowed; nothing
/// where none is, or where it does not carry the rated current `amps`. Equal within a milliampere.
std::optional<double> rating_within(const DeviceLimit& limit, double amps,
                                    const std::vector<double>& ratings);

} // namespace backplate
