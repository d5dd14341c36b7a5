#pragma once

#include <cstdint>
#include <span>

namespace backplate {

/// One uncertain cost, triangular between low and high; low ≤ likely ≤ high, any money unit.
/// A sure cost has low == high.
struct RiskLine {
    double low = 0, likely = 0, high = 0;
    bool labour = false; ///< labour lines of one job move together
};

/// What the sum stays at or below with a chance of 50 and of 80 %.
struct PriceRange {
    double p50 = 0, p80 = 0;
};

/// Quantiles of the summed lines over `draws` ≥ 1 draws; the same arguments give the same answer.
/// Labour lines share one normal factor (one-factor Gaussian copula) with `labour_correlation`,
/// 0 to 1, between each two; all others are independent. No lines: 0. Chances are interpolated
/// within 1e-10.
/// Throws std::invalid_argument for fewer draws or another correlation.
PriceRange simulate(std::span<const RiskLine> lines, double labour_correlation, int draws,
                    std::uint32_t seed);

// Parts of the simulation, for their own tests.

/// The value that a triangular line stays below with `chance`, 0 to 1.
double triangular_quantile(const RiskLine& line, double chance);

/// Inverse of the standard normal distribution, 0 < chance < 1, about 16 digits.
/// Source: Wichura, algorithm AS 241 (PPND16), Applied Statistics 37 (1988) 477.
double normal_quantile(double chance);

/// Number `counter` (from 0) of the stream `seed`: any one can be had without the ones before.
/// Source: SplitMix64, Steele, Lea & Flood, OOPSLA 2014.
std::uint64_t random_bits(std::uint64_t seed, std::uint64_t counter);

} // namespace backplate
