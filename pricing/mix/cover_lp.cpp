#include "pricing/mix/cover_lp.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "pricing/values/wide.h"

namespace backplate {
namespace {

constexpr double tolerance = 1e-7, least_pivot = 1e-9;
constexpr std::int64_t most_pivots = 5000; // of one solve
/// Multipliers are rounded to whole parts of these.
constexpr std::int64_t parts = std::int64_t{1} << 30, proof_parts = std::int64_t{1} << 40;
constexpr double infinite = std::numeric_limits<double>::infinity();

} // namespace

CoverLp::CoverLp(std::vector<std::int64_t> costs, std::vector<std::int64_t> most)
    : costs_(std::move(costs)), least_(costs_.size(), 0), most_(std::move(most)),
      at_high_(costs_.size(), false), values_(costs_.size(), 0) {
    for (std::size_t column = 0; column < costs_.size(); ++column) {
        nonbasic_.push_back(column);
        reduced_.push_back(static_cast<double>(costs_[column]));
    }
}

double CoverLp::low(Variable variable) const {
    return static_cast<double>(is_row(variable) ? rows_[variable - costs_.size()].least
                                                : least_[variable]);
}

double CoverLp::high(Variable variable) const {
    return is_row(variable) ? infinite : static_cast<double>(most_[variable]);
}

void CoverLp::add_row(CoverRow row) {
    std::vector<double> in_dictionary(nonbasic_.size(), 0);
    const auto coefficient = [&](Variable variable) {
        return is_row(variable) ? 0.0 : static_cast<double>(row.coefficients[variable]);
    };
    for (std::size_t place = 0; place < nonbasic_.size(); ++place)
        in_dictionary[place] = coefficient(nonbasic_[place]);
    for (std::size_t i = 0; i < basic_.size(); ++i) {
        const double factor = coefficient(basic_[i]);
        if (factor == 0) continue;
        for (std::size_t place = 0; place < nonbasic_.size(); ++place)
            in_dictionary[place] += factor * t_[i][place];
    }
    basic_.push_back(costs_.size() + rows_.size());
    t_.push_back(std::move(in_dictionary));
    rows_.push_back(std::move(row));
}

void CoverLp::drop_idle_rows(std::size_t first) {
    std::vector<bool> idle(rows_.size(), false);
    for (std::size_t i = basic_.size(); i-- > 0;) {
        if (!is_row(basic_[i]) || basic_[i] - costs_.size() < first) continue;
        idle[basic_[i] - costs_.size()] = true;
        basic_.erase(basic_.begin() + static_cast<std::ptrdiff_t>(i));
        t_.erase(t_.begin() + static_cast<std::ptrdiff_t>(i));
    }
    std::vector<Variable> number(rows_.size());
    std::vector<CoverRow> kept;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        number[i] = costs_.size() + kept.size();
        if (!idle[i]) kept.push_back(std::move(rows_[i]));
    }
    rows_ = std::move(kept);
    for (auto* variables : {&basic_, &nonbasic_})
        for (Variable& variable : *variables)
            if (is_row(variable)) variable = number[variable - costs_.size()];
}

void CoverLp::set_bounds(std::size_t column, std::int64_t least, std::int64_t most) {
    least_[column] = least;
    most_[column] = most;
}

void CoverLp::find_values() {
    place_value_.resize(nonbasic_.size());
    for (std::size_t place = 0; place < nonbasic_.size(); ++place)
        place_value_[place] = at_high_[place] ? high(nonbasic_[place]) : low(nonbasic_[place]);
    basic_value_.assign(basic_.size(), 0);
    for (std::size_t i = 0; i < basic_.size(); ++i)
        for (std::size_t place = 0; place < nonbasic_.size(); ++place)
            basic_value_[i] += t_[i][place] * place_value_[place];
}

std::size_t CoverLp::leaving(bool& too_low) const {
    std::size_t worst = basic_.size();
    double most_out = tolerance;
    for (std::size_t i = 0; i < basic_.size(); ++i) {
        const double scale = 1 + std::abs(low(basic_[i]));
        const double below = (low(basic_[i]) - basic_value_[i]) / scale;
        const double above = (basic_value_[i] - high(basic_[i])) / scale;
        if (std::max(below, above) <= most_out) continue;
        most_out = std::max(below, above);
        worst = i;
        too_low = below > above;
    }
    return worst;
}

std::size_t CoverLp::entering(std::size_t row, bool too_low) const {
    std::size_t best = nonbasic_.size();
    double least_ratio = infinite, largest = 0;
    for (std::size_t place = 0; place < nonbasic_.size(); ++place) {
        const Variable variable = nonbasic_[place];
        if (low(variable) == high(variable)) continue;
        const double t = t_[row][place];
        // the basic variable must rise (or fall) as this one leaves its bound
        const double gain = (too_low ? t : -t) * (at_high_[place] ? -1 : 1);
        if (gain <= least_pivot) continue;
        const double ratio = std::max(0.0, std::abs(reduced_[place])) / gain;
        if (ratio > least_ratio + 1e-12 || (ratio > least_ratio - 1e-12 && gain <= largest))
            continue;
        least_ratio = ratio;
        largest = gain;
        best = place;
    }
    return best;
}

void CoverLp::pivot(std::size_t row, std::size_t place, bool too_low) {
    ++pivots_;
    std::vector<double>& own = t_[row];
    const double inverse = 1 / own[place];
    for (double& t : own) t *= -inverse;
    own[place] = inverse;
    const auto substitute = [&](std::vector<double>& other) {
        const double factor = other[place];
        if (factor == 0) return;
        other[place] = 0;
        for (std::size_t p = 0; p < other.size(); ++p) other[p] += factor * own[p];
    };
    for (std::size_t i = 0; i < t_.size(); ++i)
        if (i != row) substitute(t_[i]);
    substitute(reduced_);
    std::swap(basic_[row], nonbasic_[place]);
    at_high_[place] = !too_low;
}

void CoverLp::find_bound() {
    std::vector<std::int64_t> multipliers(rows_.size(), 0);
    for (std::size_t place = 0; place < nonbasic_.size(); ++place)
        if (is_row(nonbasic_[place]))
            multipliers[nonbasic_[place] - costs_.size()] = std::max<std::int64_t>(
                0, std::llround(reduced_[place] * static_cast<double>(parts)));
    Wide sum = 0;
    std::vector<Wide> rest(costs_.size());
    for (std::size_t column = 0; column < costs_.size(); ++column)
        rest[column] = static_cast<Wide>(costs_[column]) * parts;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (multipliers[i] == 0) continue;
        sum += static_cast<Wide>(multipliers[i]) * rows_[i].least;
        for (std::size_t column = 0; column < costs_.size(); ++column)
            rest[column] -= static_cast<Wide>(multipliers[i]) * rows_[i].coefficients[column];
    }
    for (std::size_t column = 0; column < costs_.size(); ++column)
        sum += rest[column] * (rest[column] > 0 ? least_[column] : most_[column]);
    bound_ = static_cast<std::int64_t>(sum > 0 ? (sum + parts - 1) / parts : -(-sum / parts));
}

double CoverLp::multiplier(std::size_t row) const {
    for (std::size_t place = 0; place < nonbasic_.size(); ++place)
        if (nonbasic_[place] == costs_.size() + row) return std::max(0.0, reduced_[place]);
    return 0;
}

/// The row of the dictionary as a sum of rows: the most that it can reach stays below the least
/// that is asked of it.
bool CoverLp::proven_impossible(std::size_t row) const {
    // basic = Σ t · nonbasic, so Σ over rows of multiplier · (coefficients · x − activity) is 0
    std::vector<std::int64_t> multipliers(rows_.size(), 0);
    double largest = 1e-30;
    const auto each_row = [&](const auto& use) {
        if (is_row(basic_[row])) use(basic_[row] - costs_.size(), -1.0);
        for (std::size_t place = 0; place < nonbasic_.size(); ++place)
            if (is_row(nonbasic_[place])) use(nonbasic_[place] - costs_.size(), t_[row][place]);
    };
    each_row([&](std::size_t, double t) { largest = std::max(largest, std::abs(t)); });
    each_row([&](std::size_t i, double t) {
        multipliers[i] = std::llround(t / largest * static_cast<double>(proof_parts));
    });
    for (const int sign : {1, -1}) {
        // Σ m (a · x) ≥ Σ m least for m ≥ 0: impossible where the left side stays below
        Wide asked = 0;
        std::vector<Wide> sums(costs_.size(), 0);
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const std::int64_t m = std::max<std::int64_t>(0, sign * multipliers[i]);
            if (m == 0) continue;
            asked += static_cast<Wide>(m) * rows_[i].least;
            for (std::size_t column = 0; column < costs_.size(); ++column)
                sums[column] += static_cast<Wide>(m) * rows_[i].coefficients[column];
        }
        Wide reached = 0;
        for (std::size_t column = 0; column < costs_.size(); ++column)
            reached += sums[column] * (sums[column] > 0 ? most_[column] : least_[column]);
        if (reached < asked) return true;
    }
    return false;
}

CoverLp::State CoverLp::solve() {
    State state = State::unknown;
    const std::int64_t end = pivots_ + most_pivots;
    while (pivots_ < end) {
        find_values();
        bool too_low = true;
        const std::size_t row = leaving(too_low);
        if (row == basic_.size()) {
            state = State::solved;
            break;
        }
        const std::size_t place = entering(row, too_low);
        if (place == nonbasic_.size()) {
            if (proven_impossible(row)) return State::impossible;
            break;
        }
        pivot(row, place, too_low);
    }
    find_values();
    for (std::size_t place = 0; place < nonbasic_.size(); ++place)
        if (!is_row(nonbasic_[place])) values_[nonbasic_[place]] = place_value_[place];
    for (std::size_t i = 0; i < basic_.size(); ++i)
        if (!is_row(basic_[i])) values_[basic_[i]] = basic_value_[i];
    find_bound();
    return state;
}

} // namespace backplate
