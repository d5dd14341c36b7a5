#include "pricing/panel/mains.h"

#include <cmath>

namespace backplate {
namespace {

bool within_range(const Part& part, double volts) {
    return (!part.input_min_v || volts >= *part.input_min_v) &&
           (!part.input_max_v || volts <= *part.input_max_v);
}

bool tied_to_mains(const Part& part) {
    for (const char* kind : {"supply", "transformer", "incoming", "main_switch"})
        if (part.kind == kind) return true;
    return part.input_min_v || part.input_max_v || !part.input_form.empty();
}

bool takes_current(const Part& part, const Site& site) {
    if (!tied_to_mains(part) || part.input_form == "ac_dc") return true;
    return (part.input_form == "dc") == direct_current(site);
}

/// Of the voltage between two lines against that to the neutral.
double sqrt_of_three() { return std::sqrt(3.0); }

} // namespace

bool direct_current(const Site& site) { return site.hz == 0; }

std::optional<double> volts_at(const Part& part, const Site& site) {
    if (!takes_current(part, site) || part.phases > site.phases) return std::nullopt;
    if (within_range(part, site.volts)) return site.volts;
    const double to_neutral = site.volts / sqrt_of_three();
    const bool neutral = site.phases == 3 && site.neutral && part.phases == 1;
    if (neutral && within_range(part, to_neutral)) return to_neutral;
    return std::nullopt;
}

bool fits_mains(const Part& part, const Site& site) { return volts_at(part, site).has_value(); }

double amps_per_watt(const Part& part, const Site& site) {
    const double volts = volts_at(part, site).value_or(site.volts);
    return 1 / (part.phases == 3 ? volts * sqrt_of_three() : volts);
}

double power_factor_on(const Site& site, const RuleBook& rules) {
    return direct_current(site) ? 1 : rules.supply.power_factor.number();
}

int poles_needed(const Site& site, const RuleBook& rules) {
    const char* row = direct_current(site) ? "poles_direct_current"
                      : site.phases == 3   ? "poles_three_phase"
                      : site.neutral       ? "poles_one_phase"
                                           : "poles_two_lines";
    const auto found = rules.protection.find(row);
    return found == rules.protection.end() ? site.phases : static_cast<int>(found->second.number());
}

int live_conductors(const Site& site) {
    if (direct_current(site)) return 2;
    if (site.phases == 3) return site.neutral ? 4 : 3;
    return 2; // line and neutral, or two lines
}

} // namespace backplate
