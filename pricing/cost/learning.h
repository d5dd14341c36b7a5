#pragma once

#include <cstdint>

#include "pricing/book/rule_book.h"

namespace backplate {

/// Hours of a batch of equal units against the first one. Source: trade-practice 2.5.
class LearningCurve {
public:
    enum class Theory { unit, cumulative_average }; ///< Crawford; Wright

    /// Slope: share of the hours that is left when the number doubles, above 0 to 1.
    /// Throws std::invalid_argument outside.
    LearningCurve(Theory theory, double slope);

    /// All units take as long as the first.
    static LearningCurve none() { return {Theory::unit, 1.0}; }
    /// The curve of the rows learning/theory and learning/slope; none where there is no slope.
    static LearningCurve of(const LearningRules& rules);

    /// Units 1 to `units` ≥ 0 together, in hours of the first.
    double total(int units) const;
    /// The unit at place `number` ≥ 1, in hours of the first.
    double unit(int number) const;
    /// `total` in millionths, rounded once: what hours are multiplied by.
    std::int64_t total_millionths(int units) const;

private:
    Theory theory_;
    double exponent_; ///< ln(slope) ÷ ln 2
};

} // namespace backplate
