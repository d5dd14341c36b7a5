#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "pricing/values/wide.h"

namespace backplate {

/// Σ coefficient · column ≥ least, all whole numbers.
struct CoverRow {
    std::vector<std::int64_t> coefficients; ///< by column
    std::int64_t least = 0;
};

/// Least cost of columns between whole bounds under rows, columns not held to whole numbers: a dual
/// simplex on a dense dictionary. Its doubles only lead the way: `bound` and `impossible` are
/// computed anew in whole numbers from the multipliers they propose, so they hold whatever the
/// rounding. Costs are not negative. Sources: the bounded dual simplex method of textbooks (from
/// memory); weak duality with rounded multipliers (module-mix 4, R9).
class CoverLp {
public:
    enum class State {
        solved,     ///< values and bound hold
        impossible, ///< no point within rows and bounds, proven
        unknown     ///< neither; values are where the search stood, bound holds
    };

    CoverLp(std::vector<std::int64_t> costs, std::vector<std::int64_t> most);

    void add_row(CoverRow row);
    /// Takes out the rows from `first` on that do not bind after solve().
    void drop_idle_rows(std::size_t first);
    void set_bounds(std::size_t column, std::int64_t least, std::int64_t most);
    std::int64_t least(std::size_t column) const { return least_[column]; }
    std::int64_t most(std::size_t column) const { return most_[column]; }
    std::size_t columns() const { return costs_.size(); }
    const std::vector<CoverRow>& rows() const { return rows_; }

    State solve();
    const std::vector<double>& values() const { return values_; } ///< by column
    /// No point within rows and bounds costs less.
    std::int64_t bound() const { return bound_; }
    /// What one more of the row's least would cost, as the search found it: a proposal in doubles.
    double multiplier(std::size_t row) const;
    std::int64_t pivots() const { return pivots_; }
    /// A row that every whole point within rows and bounds keeps and the values, where the column
    /// is far from whole, break; nothing where none comes out. Exact in whole numbers. Source:
    /// mixed-integer cuts of Gomory (from memory).
    std::optional<CoverRow> whole_cut(std::size_t column) const;

private:
    /// A column (below columns()) or the activity of a row (columns() + row).
    using Variable = std::size_t;

    bool is_row(Variable variable) const { return variable >= costs_.size(); }
    double low(Variable variable) const;
    double high(Variable variable) const;
    void find_values();
    /// The basic variable furthest out of its bounds; rows_.size(): none.
    std::size_t leaving(bool& too_low) const;
    /// The nonbasic one that keeps the costs dual; places: none.
    std::size_t entering(std::size_t row, bool too_low) const;
    void pivot(std::size_t row, std::size_t place, bool too_low);
    void find_bound();
    std::vector<Wide> multipliers_of(std::size_t row) const;
    bool proven_impossible(std::size_t row) const;

    std::vector<std::int64_t> costs_, least_, most_;
    std::vector<CoverRow> rows_;
    std::vector<Variable> basic_;        ///< by row of the dictionary
    std::vector<Variable> nonbasic_;     ///< by place
    std::vector<bool> at_high_;          ///< by place
    std::vector<std::vector<double>> t_; ///< basic = Σ t · nonbasic
    std::vector<double> reduced_;        ///< costs by place
    std::vector<double> basic_value_, place_value_;
    std::vector<double> values_;
    std::int64_t bound_ = 0, pivots_ = 0;
};

} // namespace backplate
