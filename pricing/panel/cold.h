#pragma once

#include <optional>
#include <vector>

#include "pricing/panel/box_facts.h"
#include "pricing/panel/suite.h"

namespace backplate {

/// Dew point at a temperature and a relative humidity above 0 %, °C.
/// Source: climate-and-supply 4.4 (Magnus relation with the constants of the WMO guide).
double dew_point(double celsius, double humidity_percent);

/// Rise that brings air of one humidity to another at equal vapour content; 0 where it is drier.
/// Source: climate-and-supply 4.4.
Kelvin rise_to_humidity(double celsius, double humidity_percent, double inside_percent);

/// Must dew be expected: humidity above the limit of the finding CONDENSATION, or outdoors with a
/// lowest ambient below its second limit.
bool may_condense(const Site& site, const RuleBook& rules);

/// What keeps a box warm and dry while it is switched off.
struct HeatingParts {
    std::vector<const Part*> heaters; ///< state their power and run on the mains
    const Part* hygrostat = nullptr;  ///< cheapest
    const Part* thermostat = nullptr; ///< cheapest
};
HeatingParts heating_parts(const PriceBook& book, const BoxFacts& facts);

/// Rise asked when switched off: up to the highest of the parts' lowest temperatures, or to the
/// inside humidity where dew must be expected; 0 where neither is needed.
struct ColdNeed {
    Kelvin rise;
    bool dew = false; ///< the humidity asks for more than the parts
};
ColdNeed cold_need(const Site& site, std::optional<double> parts_min_c, const RuleBook& rules);

/// Power that holds the rise, U × surface × rise, outdoors times the row; nothing inside is on.
/// Source: climate-and-supply 4.4.
Watts heater_need(const Suite& enclosure, const Box& box, Kelvin rise, const RuleBook& rules);

/// Heaters of one kind with what switches them.
struct Heating {
    const Part* heater = nullptr;
    const Part* control = nullptr;
    int pieces = 0;
};
/// The cheapest pieces of one kind; nothing where the price book lacks heater or control.
std::optional<Heating> choose_heating(const HeatingParts& parts, Watts need, bool dew);

} // namespace backplate
