#include <algorithm>
#include <cmath>

#include "pricing/mix/cover_lp.h"
#include "pricing/values/wide.h"

namespace backplate {
namespace {

/// Multipliers are rounded to whole parts of this; coefficients of a cut are at most `largest`.
constexpr std::int64_t parts = std::int64_t{1} << 20, largest = 3'000;

Wide rest_of(Wide value) { return ((value % parts) + parts) % parts; }
Wide down(Wide value, Wide by) { return value / by - (value % by < 0 ? 1 : 0); }

/// Divided and rounded so that it still holds: no column is below 0.
CoverRow shortened(const std::vector<Wide>& cut, Wide least) {
    Wide most = 1;
    for (const Wide value : cut) most = std::max(most, value < 0 ? -value : value);
    const Wide by = most / largest + 1;
    CoverRow row;
    for (const Wide value : cut)
        row.coefficients.push_back(static_cast<std::int64_t>(-down(-value, by)));
    row.least = static_cast<std::int64_t>(down(least, by));
    return row;
}

} // namespace

/// Of the rows in a row of the dictionary, in whole parts; nothing where they are too large.
std::vector<Wide> CoverLp::multipliers_of(std::size_t row) const {
    constexpr double too_large = 1e6;
    std::vector<Wide> multipliers(rows_.size(), 0);
    for (std::size_t place = 0; place < nonbasic_.size(); ++place) {
        if (!is_row(nonbasic_[place])) continue;
        const double t = t_[row][place];
        if (std::abs(t) > too_large) return {};
        multipliers[nonbasic_[place] - costs_.size()] =
            std::llround(t * static_cast<double>(parts));
    }
    return multipliers;
}

/// With whole multipliers m of the rows, Σ A x − Σ m s = b holds exactly for whole slacks s, where
/// A = Σ m a and b = Σ m least. With columns counted from their bounds and f the rest of a
/// coefficient over `parts`, f0 that of the right side, Σ φ d ≥ 1 holds for every whole point: φ is
/// f / f0, or (parts − f) / (parts − f0) where f is larger.
std::optional<CoverRow> CoverLp::whole_cut(std::size_t column) const {
    const auto found = std::find(basic_.begin(), basic_.end(), column);
    if (found == basic_.end()) return std::nullopt;
    const auto multipliers = multipliers_of(static_cast<std::size_t>(found - basic_.begin()));
    if (multipliers.empty()) return std::nullopt;
    std::vector<Wide> sums(costs_.size(), 0);
    Wide right = 0;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (multipliers[i] == 0) continue;
        right += multipliers[i] * rows_[i].least;
        for (std::size_t c = 0; c < costs_.size(); ++c)
            sums[c] += multipliers[i] * rows_[i].coefficients[c];
    }
    std::vector<bool> high(costs_.size(), false);
    for (std::size_t place = 0; place < nonbasic_.size(); ++place)
        if (!is_row(nonbasic_[place])) high[nonbasic_[place]] = at_high_[place];
    for (std::size_t c = 0; c < costs_.size(); ++c)
        right -= sums[c] * (high[c] ? most_[c] : least_[c]);
    const Wide over = rest_of(right);
    if (over < parts / 100 || over > parts - parts / 100) return std::nullopt;
    const auto share = [&](Wide coefficient) { // times over · (parts − over)
        const Wide f = rest_of(coefficient);
        return f <= over ? f * (parts - over) : (parts - f) * over;
    };
    std::vector<Wide> cut(costs_.size(), 0);
    Wide least = over * (parts - over);
    for (std::size_t c = 0; c < costs_.size(); ++c) {
        const Wide value = share(high[c] ? -sums[c] : sums[c]);
        cut[c] += high[c] ? -value : value;
        least += high[c] ? -value * most_[c] : value * least_[c];
    }
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (multipliers[i] == 0) continue;
        const Wide value = share(-multipliers[i]);
        least += value * rows_[i].least;
        for (std::size_t c = 0; c < costs_.size(); ++c) cut[c] += value * rows_[i].coefficients[c];
    }
    return shortened(cut, least);
}

} // namespace backplate
