#pragma once

#include <optional>

#include "pricing/book/part.h"
#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

bool direct_current(const Site& site);

/// Volts between the conductors that the part lies on: of the mains, or of one phase against the
/// neutral where only these lie within its range. Nothing where it does not run on the mains: wrong
/// current, voltage or number of phases. A part that states no current is for alternating current;
/// one that states no range either is not tied to the mains, supplies, breakers and switches apart.
std::optional<double> volts_at(const Part& part, const Site& site);
bool fits_mains(const Part& part, const Site& site);

/// Current of the most loaded line per watt of the part, 1/V, at a power factor of 1: three phases
/// share by √3, one phase against the neutral takes √3 of what it would between two lines.
/// Source: electrical-facts 1 (input current).
double amps_per_watt(const Part& part, const Site& site);

/// Power factor of supplies on this mains; 1 on direct current.
double power_factor_on(const Site& site, const RuleBook& rules);

/// Conductors that an incoming device opens: rows poles_… of the table protection, by phases,
/// neutral and kind of current. Without a row one per phase.
int poles_needed(const Site& site, const RuleBook& rules);

/// Live conductors of one feed, the neutral among them.
int live_conductors(const Site& site);

} // namespace backplate
