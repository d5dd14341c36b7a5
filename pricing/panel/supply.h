#pragma once

#include <optional>
#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/box_facts.h"

namespace backplate {

/// One or several equal supplies in parallel.
struct SupplyChoice {
    const Part* part = nullptr;
    int quantity = 1;
    const LossRow* loss = nullptr;
    double rated_a() const { return *part->rated_a * quantity; }
};

/// Supplies that may be chosen for the site's voltage, alone or as many in parallel as the rules
/// allow.
std::vector<SupplyChoice> supply_choices(const PriceBook& book, const BoxFacts& facts,
                                         const RuleBook& rules);

/// Loss inside the box, rated × volts × (l0 + l1 x + l2 x²) with x = load ÷ rated.
/// Source: climate-and-supply 5.1.
Watts supply_loss(const SupplyChoice& choice, Amperes load, const SupplyRules& rules);

/// 1 up to the knee, then falling by the slope, 0 from the part's own highest temperature on.
/// Source: climate-and-supply 5.2.
double temperature_factor(const SupplyChoice& choice, Celsius air, const SupplyRules& rules);
/// 1 up to the knee, then falling; 0 above it where no row says how far.
double altitude_factor(double altitude_m, const SupplyRules& rules);

/// The highest air temperature at which the supply still carries `load` (utilisation included);
/// nothing where it does not even below the knee. Source: climate-and-supply 5.3.
std::optional<Celsius> highest_air(const SupplyChoice& choice, Amperes load, double altitude_m,
                                   const SupplyRules& rules);

/// The supply's entry of the estimate.
SupplyResult supply_result(const SupplyChoice& choice, Amperes load, Amperes all_on, Celsius air,
                           double altitude_m, const SupplyRules& rules);

} // namespace backplate
