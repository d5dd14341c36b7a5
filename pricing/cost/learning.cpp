#include "pricing/cost/learning.h"

#include <cmath>
#include <stdexcept>

namespace backplate {

LearningCurve::LearningCurve(Theory theory, double slope)
    : theory_(theory), exponent_(std::log(slope) / std::log(2.0)) {
    if (!(slope > 0 && slope <= 1))
        throw std::invalid_argument("a learning slope lies above 0 and not above 1");
}

LearningCurve LearningCurve::of(const LearningRules& rules) {
    if (!rules.slope) return none();
    const bool wright = rules.theory == "wright";
    return {wright ? Theory::cumulative_average : Theory::unit, rules.slope->number() / 100};
}

double LearningCurve::total(int units) const {
    if (theory_ == Theory::cumulative_average)
        return units == 0 ? 0 : units * std::pow(units, exponent_);
    double sum = 0;
    for (int number = 1; number <= units; ++number) sum += std::pow(number, exponent_);
    return sum;
}

double LearningCurve::unit(int number) const {
    return theory_ == Theory::unit ? std::pow(number, exponent_)
                                   : total(number) - total(number - 1);
}

std::int64_t LearningCurve::total_millionths(int units) const {
    return std::llround(total(units) * 1e6);
}

} // namespace backplate
