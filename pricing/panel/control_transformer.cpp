#include "pricing/panel/control_transformer.h"

#include <algorithm>
#include <cmath>

namespace backplate {
namespace {

constexpr double nothing_a = 0.0005;

DeviceLimit limit_of(double amps, const Rule& percent, const TransformerRules& rules) {
    return {percent.number(), amps * percent.number() / 100,
            percent.number() == rules.round_up_at_percent.number()};
}

} // namespace

double selection_va(double sealed_va, double inrush_va) { return std::hypot(sealed_va, inrush_va); }

double nameplate_share(const TransformerRules& rules) {
    return std::min(1.0,
                    rules.inrush_multiple.number() / selection_va(1, rules.inrush_factor.number()));
}

DeviceLimit primary_limit(double amps, bool alone, const TransformerRules& rules) {
    if (!alone) return limit_of(amps, rules.primary_percent, rules);
    if (amps >= rules.high_from_a.number()) return limit_of(amps, rules.alone_high_percent, rules);
    const bool low = amps < rules.low_below_a.number();
    return limit_of(amps, low ? rules.alone_low_percent : rules.alone_percent, rules);
}

DeviceLimit secondary_limit(double amps, const TransformerRules& rules) {
    const bool high = amps >= rules.high_from_a.number();
    return limit_of(amps, high ? rules.secondary_high_percent : rules.secondary_percent, rules);
}

std::optional<double> rating_within(const DeviceLimit& limit, double amps,
                                    const std::vector<double>& ratings) {
    std::optional<double> below, above;
    for (const double rating : ratings)
        if (rating <= limit.amps + nothing_a)
            below = std::max(below.value_or(rating), rating);
        else
            above = std::min(above.value_or(rating), rating);
    const bool equal = below && *below >= limit.amps - nothing_a;
    if (limit.round_up && !equal && above) return above;
    return below && *below >= amps - nothing_a ? below : std::nullopt;
}

} // namespace backplate
