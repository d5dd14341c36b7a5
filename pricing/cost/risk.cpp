#include "pricing/cost/risk.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <vector>

namespace backplate {
namespace {

/// Ratio of two polynomials, both with the lowest power first.
struct Ratio {
    std::array<double, 8> above, below;

    double at(double x) const {
        double numerator = 0;
        double denominator = 0;
        for (std::size_t i = above.size(); i-- > 0;) {
            numerator = numerator * x + above[i];
            denominator = denominator * x + below[i];
        }
        return numerator / denominator;
    }
};

constexpr Ratio centre{
    {3.3871328727963666080, 133.14166789178437745, 1971.5909503065514427, 13731.693765509461125,
     45921.953931549871457, 67265.770927008700853, 33430.575583588128105, 2509.0809287301226727},
    {1, 42.313330701600911252, 687.18700749205790830, 5394.1960214247511077, 21213.794301586595867,
     39307.895800092710610, 28729.085735721942674, 5226.4952788528545610}};
constexpr Ratio flank{{1.42343711074968357734, 4.63033784615654529590, 5.76949722146069140550,
                       3.64784832476320460504, 1.27045825245236838258, 0.241780725177450611770,
                       0.0227238449892691845833, 7.74545014278341407640e-4},
                      {1, 2.05319162663775882187, 1.67638483018380384940, 0.689767334985100004550,
                       0.148103976427480074590, 0.0151986665636164571966, 5.47593808499534494600e-4,
                       1.05075007164441684324e-9}};
constexpr Ratio far_tail{
    {6.65790464350110377720, 5.46378491116411436990, 1.78482653991729133580,
     0.296560571828504891230, 0.0265321895265761230930, 1.24266094738807843860e-3,
     2.71155556874348757815e-5, 2.01033439929228813265e-7},
    {1, 0.599832206555887937690, 0.136929880922735805310, 0.0148753612908506148525,
     7.86869131145613259100e-4, 1.84631831751005468180e-5, 1.42151175831644588870e-7,
     2.04426310338993978564e-15}};

double normal_chance(double value) { return 0.5 * std::erfc(-value / std::sqrt(2.0)); }

/// Values of a smooth function at equal steps, cubic between them by their slopes (Hermite): a
/// simulation asks for the same two functions hundreds of thousands of times.
class SmoothTable {
public:
    template <class Value, class Slope>
    SmoothTable(double from, double to, int steps, const Value& value, const Slope& slope)
        : from_(from), step_((to - from) / steps) {
        for (int i = 0; i <= steps; ++i) {
            const double x = from + i * step_;
            knots_.push_back({value(x), slope(x) * step_});
        }
    }
    bool holds(double x) const {
        return x >= from_ && x < from_ + step_ * static_cast<double>(knots_.size() - 1);
    }
    /// For an x that it holds.
    double at(double x) const {
        const double place = (x - from_) / step_;
        const auto i = static_cast<std::size_t>(place);
        const double t = place - static_cast<double>(i);
        const Knot& a = knots_[i];
        const Knot& b = knots_[i + 1];
        const double rise = b.value - a.value;
        return a.value + t * (a.slope + t * (3 * rise - 2 * a.slope - b.slope +
                                             t * (a.slope + b.slope - 2 * rise)));
    }

private:
    struct Knot {
        double value = 0, slope = 0; ///< slope: over one step
    };
    double from_, step_;
    std::vector<Knot> knots_;
};

double normal_density(double value) {
    return std::exp(-value * value / 2) / std::sqrt(2 * std::numbers::pi);
}

/// The standard normal distribution and its inverse within 1e-10, both ways.
class Normal {
public:
    Normal()
        : chance_(-8, 8, 1024, normal_chance, normal_density),
          value_(0.05, 0.95, 2048, normal_quantile,
                 [](double chance) { return 1 / normal_density(normal_quantile(chance)); }) {}
    double chance(double value) const {
        return chance_.holds(value) ? chance_.at(value) : normal_chance(value);
    }
    double value(double chance) const {
        return value_.holds(chance) ? value_.at(chance) : normal_quantile(chance);
    }

private:
    SmoothTable chance_, value_;
};

/// The middle of one of 2^53 equal parts of 0 to 1, so neither end is ever met.
double uniform(std::uint64_t bits) { return (static_cast<double>(bits >> 11) + 0.5) * 0x1p-53; }

/// The smallest drawn sum that at least `share` of all drawn sums do not exceed.
double quantile(std::vector<double>& sums, double share) {
    const double rank = std::ceil(share * static_cast<double>(sums.size()));
    const auto place = sums.begin() + static_cast<std::ptrdiff_t>(rank) - 1;
    std::nth_element(sums.begin(), place, sums.end());
    return *place;
}

/// One draw of all lines takes the numbers `first` (the common factor) to `first` + lines.
double drawn_sum(std::span<const RiskLine> lines, double correlation, const Normal& normal,
                 std::uint64_t seed, std::uint64_t first) {
    const double common = std::sqrt(correlation) * normal.value(uniform(random_bits(seed, first)));
    const double own = std::sqrt(1 - correlation);
    double sum = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (lines[i].low == lines[i].high) {
            sum += lines[i].low;
            continue;
        }
        double chance = uniform(random_bits(seed, first + 1 + i));
        if (lines[i].labour && correlation > 0)
            chance = normal.chance(common + own * normal.value(chance));
        sum += triangular_quantile(lines[i], chance);
    }
    return sum;
}

} // namespace

PriceRange simulate(std::span<const RiskLine> lines, double labour_correlation, int draws,
                    std::uint32_t seed) {
    if (draws < 1) throw std::invalid_argument("a simulation needs at least one draw");
    if (!(labour_correlation >= 0 && labour_correlation <= 1))
        throw std::invalid_argument("a correlation lies between 0 and 1");
    const Normal normal;
    std::vector<double> sums;
    sums.reserve(static_cast<std::size_t>(draws));
    const std::uint64_t numbers_per_draw = lines.size() + 1;
    for (int draw = 0; draw < draws; ++draw)
        sums.push_back(drawn_sum(lines, labour_correlation, normal, seed,
                                 static_cast<std::uint64_t>(draw) * numbers_per_draw));
    const double p50 = quantile(sums, 0.5);
    return {p50, quantile(sums, 0.8)};
}

double triangular_quantile(const RiskLine& line, double chance) {
    const double width = line.high - line.low;
    if (width <= 0) return line.low;
    const double rising = line.likely - line.low;
    if (chance * width <= rising) return line.low + std::sqrt(chance * width * rising);
    return line.high - std::sqrt((1 - chance) * width * (line.high - line.likely));
}

double normal_quantile(double chance) {
    const double from_half = chance - 0.5;
    if (std::abs(from_half) <= 0.425)
        return from_half * centre.at(0.180625 - from_half * from_half);
    const double tail = from_half < 0 ? chance : 1 - chance;
    const double depth = std::sqrt(-std::log(tail));
    const double value = depth <= 5 ? flank.at(depth - 1.6) : far_tail.at(depth - 5);
    return from_half < 0 ? -value : value;
}

std::uint64_t random_bits(std::uint64_t seed, std::uint64_t counter) {
    std::uint64_t z = seed + (counter + 1) * 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

} // namespace backplate
