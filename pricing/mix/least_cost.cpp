#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "pricing/mix/bare_rows.h"

namespace backplate {
namespace {

using Column = BareColumn;
using Kind = BareColumn::Kind;

/// Bounds of one column that a branch sets.
struct Branch {
    std::size_t column = 0;
    std::int64_t least = 0, most = 0;
};

/// A part of the choices that is still to be searched.
struct Open {
    std::int64_t bound = 0;
    std::vector<Branch> branches;
};

/// The search around one controller: always on from the open part of the least bound, down to a
/// part that holds nothing cheaper than what is known.
class ControllerSearch {
public:
    ControllerSearch(const BareMix& mix, const BareItem& controller, std::vector<Column> columns,
                     const BareLimits& limits, const BareWeights& weights, Work& work)
        : rows_(mix, controller, std::move(columns), limits), own_(weighed(controller, weights)),
          work_(work), root_(rows_.program()) {
        bool possible = tighten(root_, most_rounds);
        for (int round = 0; possible && round < whole_rounds; ++round) {
            CoverLp better = root_;
            if (!cut_fractions(better)) break;
            possible = tighten(better, most_rounds);
            if (possible && better.bound() <= root_.bound()) break;
            root_ = std::move(better);
        }
        root_.drop_idle_rows(rows_.program().rows().size());
        if (possible) open_.push_back({root_.bound(), {}});
    }

    /// No choice that is still open costs less; nothing: none is open.
    std::optional<std::int64_t> bound() const {
        return open_.empty() ? std::nullopt : std::optional(own_ + open_.front().bound);
    }

    /// Searches on from the front; counts that cost less than `best`, which is lowered.
    std::optional<std::vector<std::int64_t>> dive(std::optional<std::int64_t>& best) {
        best_ = best ? std::optional(*best - own_) : std::nullopt;
        found_.reset();
        std::pop_heap(open_.begin(), open_.end(), dearer);
        Open at = std::move(open_.back());
        open_.pop_back();
        CoverLp lp = root_;
        for (const Branch& branch : at.branches)
            lp.set_bounds(branch.column, branch.least, branch.most);
        while (!work_.exhausted())
            if (closed(lp, !at.branches.empty()) || !branch(lp, at)) return lowered(best);
        open_.push_back(std::move(at)); // the steps ended
        std::push_heap(open_.begin(), open_.end(), dearer);
        return lowered(best);
    }
    const BareRows& rows() const { return rows_; }

private:
    static constexpr int most_rounds = 200, whole_rounds = 3, rounds_below = 4;

    static bool dearer(const Open& a, const Open& b) { return a.bound > b.bound; }
    bool beaten(const CoverLp& lp) const { return best_ && lp.bound() >= *best_; }

    std::optional<std::vector<std::int64_t>> lowered(std::optional<std::int64_t>& best) const {
        if (found_) best = *best_ + own_;
        return found_;
    }

    /// Solves the program and adds what its values break, over and over; false: impossible.
    bool tighten(CoverLp& lp, int rounds) {
        for (int round = 0;; ++round) {
            const CoverLp::State state = lp.solve();
            if (state == CoverLp::State::impossible) return false;
            const bool last = round >= rounds && fractional(lp) < lp.columns();
            if (state == CoverLp::State::unknown || last || beaten(lp) || !rows_.cut(lp))
                return true;
        }
    }

    /// Adds a row against every column that is not whole at the root; false: none.
    bool cut_fractions(CoverLp& lp) const {
        std::vector<CoverRow> cuts;
        for (std::size_t i = 0; i < lp.columns(); ++i)
            if (std::abs(lp.values()[i] - std::round(lp.values()[i])) > 0.01)
                if (auto cut = lp.whole_cut(i)) cuts.push_back(std::move(*cut));
        for (CoverRow& cut : cuts) lp.add_row(std::move(cut));
        return !cuts.empty();
    }

    /// Nothing cheaper is left in this part.
    bool closed(CoverLp& lp, bool solve) {
        work_.check_stop();
        ++work_.counts.candidates;
        if (solve && !tighten(lp, rounds_below)) return true;
        if (beaten(lp)) return true;
        try_counts(rounded_up(lp));
        return beaten(lp);
    }

    std::int64_t cost_of(const std::vector<std::int64_t>& counts) const {
        std::int64_t cost = 0;
        for (std::size_t i = 0; i < counts.size(); ++i) cost += rows_.columns()[i].cost * counts[i];
        return cost;
    }

    void try_counts(std::vector<std::int64_t> counts) {
        if (!rows_.sound(counts)) return;
        trim(counts);
        const std::int64_t cost = cost_of(counts);
        if (best_ && cost >= *best_) return;
        best_ = cost;
        found_ = std::move(counts);
    }

    /// Takes out what is not needed, choices first, then from the dearest on.
    void trim(std::vector<std::int64_t>& counts) {
        for (const std::size_t i : trimming_order()) {
            while (counts[i] > 0) {
                --counts[i];
                if (rows_.sound(counts)) continue;
                ++counts[i];
                break;
            }
        }
    }

    std::vector<std::size_t> trimming_order() const {
        std::vector<std::size_t> order(rows_.columns().size());
        for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            const Column &one = rows_.columns()[a], &other = rows_.columns()[b];
            if ((one.kind == Kind::choice) != (other.kind == Kind::choice))
                return one.kind == Kind::choice;
            return one.cost > other.cost;
        });
        return order;
    }

    /// The nearest whole counts where the values are whole, else the next ones above; items as
    /// many as their choices ask for.
    std::vector<std::int64_t> rounded_up(const CoverLp& lp) const {
        std::vector<std::int64_t> counts;
        std::map<std::pair<std::size_t, std::size_t>, std::int64_t> chosen;
        for (std::size_t i = 0; i < lp.columns(); ++i) {
            counts.push_back(std::clamp(static_cast<std::int64_t>(std::ceil(lp.values()[i] - 1e-6)),
                                        lp.least(i), lp.most(i)));
            if (rows_.columns()[i].kind == Kind::choice &&
                rows_.columns()[i].owner != Column::controller)
                chosen[{rows_.columns()[i].owner, rows_.columns()[i].groups}] += counts.back();
        }
        for (const auto& [groups, count] : chosen) {
            const std::int64_t each =
                rows_.columns()[groups.first].gives.one_kind[groups.second].count;
            counts[groups.first] = std::max(counts[groups.first], (count + each - 1) / each);
        }
        return counts;
    }

    /// The column furthest from whole counts, by cost; columns(): all are whole.
    std::size_t fractional(const CoverLp& lp) const {
        std::size_t chosen = lp.columns();
        double most_apart = 0;
        for (std::size_t i = 0; i < lp.columns(); ++i) {
            const double out = std::abs(lp.values()[i] - std::round(lp.values()[i]));
            const double apart = out * static_cast<double>(1 + rows_.columns()[i].cost);
            if (lp.least(i) == lp.most(i) || out <= 1e-6 || apart <= most_apart) continue;
            most_apart = apart;
            chosen = i;
        }
        return chosen;
    }

    /// The column with most room; columns(): every count is fixed.
    std::size_t widest(const CoverLp& lp) const {
        std::size_t chosen = lp.columns();
        std::int64_t room = 0;
        for (std::size_t i = 0; i < lp.columns(); ++i)
            if (lp.most(i) - lp.least(i) > room) {
                room = lp.most(i) - lp.least(i);
                chosen = i;
            }
        return chosen;
    }

    /// Goes on above the value of a column and leaves what is below open; false: every count is
    /// fixed and was tried.
    bool branch(CoverLp& lp, Open& at) {
        std::size_t column = fractional(lp);
        if (column == lp.columns()) column = widest(lp); // whole, and yet not sound
        if (column == lp.columns()) return false;
        const std::int64_t below =
            std::clamp(static_cast<std::int64_t>(std::floor(lp.values()[column] + 1e-9)),
                       lp.least(column), lp.most(column) - 1);
        open_.push_back({lp.bound(), at.branches});
        open_.back().branches.push_back({column, lp.least(column), below});
        std::push_heap(open_.begin(), open_.end(), dearer);
        at.branches.push_back({column, below + 1, lp.most(column)});
        lp.set_bounds(column, below + 1, lp.most(column));
        return true;
    }

    BareRows rows_;
    std::int64_t own_;
    Work& work_;
    CoverLp root_;
    std::vector<Open> open_; ///< a heap, the least bound in front
    std::optional<std::int64_t> best_;
    std::optional<std::vector<std::int64_t>> found_;
};

void add_counts(BareAnswer& answer, const BareRows& rows, const std::vector<std::int64_t>& counts,
                const BareFamily& family) {
    std::map<const BareItem*, std::int64_t> by_item{{&rows.controller(), 1}};
    for (std::size_t i = 0; i < counts.size(); ++i)
        if (counts[i] > 0 && rows.columns()[i].item) by_item[rows.columns()[i].item] += counts[i];
    answer.items.clear();
    answer.sums = {};
    for (const auto* list : {&family.controllers, &family.heads, &family.feeds, &family.modules})
        for (const BareItem& item : *list) {
            const auto found = by_item.find(&item);
            if (found == by_item.end()) continue;
            answer.items.push_back({item.id, found->second});
            for (std::size_t k = 0; k < answer.sums.size(); ++k)
                answer.sums[k] += item.sums[k] * found->second;
        }
}

} // namespace

BareAnswer least_cost(const BareMix& mix, const BareFamily& family, Work& work,
                      const BareLimits& limits, const BareWeights& weights) {
    BareAnswer answer;
    std::optional<std::int64_t> best;
    const std::vector<Column> columns = columns_of(mix, family, weights, limits);
    std::vector<std::unique_ptr<ControllerSearch>> searches;
    for (const BareItem& controller : family.controllers)
        searches.push_back(
            std::make_unique<ControllerSearch>(mix, controller, columns, limits, weights, work));
    for (;;) {
        ControllerSearch* next = nullptr;
        for (const auto& search : searches)
            if (search->bound() && (!next || *search->bound() < *next->bound()))
                next = search.get();
        if (!next || (best && *next->bound() >= *best)) break;
        answer.proven = !work.exhausted();
        if (!answer.proven) break;
        const auto counts = next->dive(best);
        if (!counts) continue;
        answer.feasible = true;
        add_counts(answer, next->rows(), *counts, family);
    }
    return answer;
}

} // namespace backplate
