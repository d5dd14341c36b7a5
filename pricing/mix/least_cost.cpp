#include <algorithm>
#include <cmath>
#include <map>

#include "pricing/mix/bare_columns.h"
#include "pricing/mix/cover_lp.h"

namespace backplate {
namespace {

using Column = BareColumn;

/// The search around one controller in one way to use its own groups.
class ControllerSearch {
public:
    ControllerSearch(const BareMix& mix, const BareItem& controller,
                     const std::vector<ChannelClass>& onboard, const std::vector<Column>& columns,
                     const BareLimits& limits, const BareWeights& weights, Work& work)
        : mix_(mix), controller_(controller), onboard_(onboard), columns_(columns), limits_(limits),
          own_(weighed(controller, weights)), work_(work) {
        for (const Column& column : columns_)
            for (const ChannelClass& each : column.classes) add_set(each.accepts);
        for (std::size_t kind = 0; kind < mix.need.size(); ++kind) add_set(Signals{1} << kind);
        add_unions();
    }

    /// Counts cheaper than `best`, if there are any; lowers `best`.
    std::optional<std::vector<std::int64_t>> run(std::optional<std::int64_t>& best) {
        best_ = best ? std::optional(*best - own_) : std::nullopt;
        CoverLp lp = program();
        node(lp, 0);
        if (found_) best = *best_ + own_;
        return found_;
    }
    bool proven() const { return proven_; }

private:
    static constexpr int most_rounds = 30, rounds_below = 4;
    static constexpr std::size_t most_sets = 600;

    void add_set(Signals kinds) {
        kinds &= asked_kinds(mix_.need);
        if (kinds && std::find(sets_.begin(), sets_.end(), kinds) == sets_.end() &&
            sets_.size() < most_sets)
            sets_.push_back(kinds);
    }

    /// Unions of sets that share a kind, until there are enough.
    void add_unions() {
        for (std::size_t i = 0; i < sets_.size() && sets_.size() < most_sets; ++i)
            for (std::size_t k = 0; k < i; ++k)
                if (sets_[i] & sets_[k]) add_set(sets_[i] | sets_[k]);
        Signals all = 0;
        for (const Signals set : sets_) all |= set;
        add_set(all);
    }

    CoverLp program() const {
        std::vector<std::int64_t> costs, most;
        for (const Column& column : columns_) {
            costs.push_back(column.cost);
            most.push_back(column.kind == Column::Kind::head ? controller_.most_heads
                                                             : column.most);
        }
        CoverLp lp(std::move(costs), std::move(most));
        const auto row = [&](const auto& coefficient, std::int64_t least) {
            CoverRow made;
            for (const Column& column : columns_) made.coefficients.push_back(coefficient(column));
            made.least = least;
            lp.add_row(std::move(made));
        };
        using Kind = Column::Kind;
        row([](const Column& c) { return c.kind == Kind::head ? c.item->places : -c.item->places; },
            -controller_.places);
        row([](const Column& c) { return c.kind == Kind::module ? -c.item->bus : c.item->bus; },
            -controller_.bus);
        row([](const Column& c) { return c.kind == Kind::head ? -1 : 0; }, -controller_.most_heads);
        row(
            [](const Column& c) {
                return c.kind == Kind::head ? c.item->most_feeds : c.kind == Kind::feed ? -1 : 0;
            },
            -controller_.most_feeds);
        for (std::size_t k = 0; k < limits_.size(); ++k)
            if (limits_[k])
                row([k](const Column& c) { return -c.item->sums[k]; },
                    controller_.sums[k] - *limits_[k]);
        for (const Signals set : sets_)
            if ((set & (set - 1)) == 0) lp.add_row(hall_row(set));
        return lp;
    }

    /// Channels for the set are at least its need.
    CoverRow hall_row(Signals set) const {
        CoverRow row;
        for (const Column& column : columns_)
            row.coefficients.push_back(channels_for(column.classes, set));
        row.least = need_of(mix_.need, set) - channels_for(onboard_, set);
        return row;
    }

    /// The row of the set rounded by `size`: with rest r of the need over whole sizes, a column
    /// counts whole sizes times r and of what is over at most r.
    static CoverRow rounded(const CoverRow& row, std::int64_t size) {
        const std::int64_t whole = (row.least + size - 1) / size;
        const std::int64_t rest = row.least - (whole - 1) * size;
        CoverRow result;
        for (const std::int64_t a : row.coefficients)
            result.coefficients.push_back(a / size * rest + std::min(rest, a % size));
        result.least = rest * whole;
        return result;
    }

    static double missing(const CoverRow& row, const std::vector<double>& values) {
        double sum = 0;
        for (std::size_t i = 0; i < values.size(); ++i)
            sum += static_cast<double>(row.coefficients[i]) * values[i];
        return (static_cast<double>(row.least) - sum) /
               (1 + std::abs(static_cast<double>(row.least)));
    }

    /// Rows of the sets and their roundings that the values break; false: none.
    bool cut(CoverLp& lp) {
        const std::vector<double> values = lp.values();
        if (const auto set = broken_set(values)) add_set(*set);
        std::vector<std::pair<double, CoverRow>> cuts;
        for (const Signals set : sets_) {
            const CoverRow row = hall_row(set);
            if (row.least <= 0) continue;
            const auto look = [&](const CoverRow& candidate) {
                const double out = missing(candidate, values);
                if (out > 1e-5) cuts.emplace_back(out, candidate);
            };
            look(row);
            std::vector<std::int64_t> sizes = row.coefficients;
            std::sort(sizes.begin(), sizes.end());
            sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
            for (const std::int64_t size : sizes)
                if (size > 1) look(rounded(row, size));
        }
        std::stable_sort(cuts.begin(), cuts.end(),
                         [](const auto& a, const auto& b) { return a.first > b.first; });
        constexpr std::size_t most_cuts = 12;
        for (std::size_t i = 0; i < cuts.size() && i < most_cuts; ++i)
            lp.add_row(std::move(cuts[i].second));
        return !cuts.empty();
    }

    std::optional<Signals> broken_set(const std::vector<double>& values) const {
        constexpr double scale = 1e6;
        std::vector<ChannelClass> classes;
        for (const ChannelClass& each : onboard_)
            classes.push_back({each.accepts, each.channels * std::int64_t{1000000}});
        for (std::size_t i = 0; i < columns_.size(); ++i)
            for (const ChannelClass& each : columns_[i].classes)
                if (const auto channels =
                        std::llround(values[i] * static_cast<double>(each.channels) * scale);
                    channels > 0)
                    classes.push_back({each.accepts, channels});
        std::vector<std::int64_t> need;
        for (const std::int64_t each : mix_.need)
            need.push_back(std::max<std::int64_t>(0, each * 1000000 - (each > 0 ? 1000 : 0)));
        return short_kinds(classes, need);
    }

    /// Whole counts that keep every condition, exactly.
    bool sound(const CoverLp& lp, const std::vector<std::int64_t>& counts) {
        for (const CoverRow& row : lp.rows()) {
            std::int64_t sum = 0;
            for (std::size_t i = 0; i < counts.size(); ++i) sum += row.coefficients[i] * counts[i];
            if (sum < row.least) return false;
        }
        std::vector<ChannelClass> classes = onboard_;
        for (std::size_t i = 0; i < counts.size(); ++i)
            for (const ChannelClass& each : columns_[i].classes)
                if (counts[i] > 0) classes.push_back({each.accepts, each.channels * counts[i]});
        const auto set = short_kinds(classes, mix_.need);
        if (set) add_set(*set);
        return !set;
    }

    void try_counts(const CoverLp& lp, const std::vector<std::int64_t>& counts) {
        std::int64_t cost = 0;
        for (std::size_t i = 0; i < counts.size(); ++i) cost += columns_[i].cost * counts[i];
        if ((best_ && cost >= *best_) || !sound(lp, counts)) return;
        best_ = cost;
        found_ = counts;
    }

    bool beaten(const CoverLp& lp) const { return best_ && lp.bound() >= *best_; }

    void node(CoverLp& lp, int depth) {
        work_.check_stop();
        ++work_.counts.candidates;
        if (work_.exhausted()) {
            proven_ = false;
            return;
        }
        CoverLp::State state = CoverLp::State::unknown;
        const int rounds = depth == 0 ? most_rounds : rounds_below;
        for (int round = 0; round <= rounds; ++round) {
            state = lp.solve();
            if (state == CoverLp::State::impossible || beaten(lp)) return;
            if (state == CoverLp::State::unknown || round == rounds || !cut(lp)) break;
        }
        try_counts(lp, rounded_up(lp));
        if (beaten(lp)) return;
        branch(lp, depth);
    }

    /// The nearest whole counts where the values are whole, else the next ones above.
    std::vector<std::int64_t> rounded_up(const CoverLp& lp) const {
        std::vector<std::int64_t> counts;
        for (std::size_t i = 0; i < lp.columns(); ++i)
            counts.push_back(std::clamp(static_cast<std::int64_t>(std::ceil(lp.values()[i] - 1e-6)),
                                        lp.least(i), lp.most(i)));
        return counts;
    }

    void branch(const CoverLp& lp, int depth) {
        std::size_t chosen = lp.columns();
        double most_apart = 1e-6;
        std::int64_t widest = 0;
        for (std::size_t i = 0; i < lp.columns(); ++i) {
            if (lp.least(i) == lp.most(i)) continue;
            const double value = lp.values()[i];
            const double apart =
                std::abs(value - std::round(value)) * static_cast<double>(1 + columns_[i].cost);
            if (std::abs(value - std::round(value)) > 1e-6 && apart > most_apart) {
                most_apart = apart;
                chosen = i;
            }
        }
        if (chosen == lp.columns()) // all whole, and yet neither sound nor beaten
            for (std::size_t i = 0; i < lp.columns(); ++i)
                if (lp.most(i) - lp.least(i) > widest) {
                    widest = lp.most(i) - lp.least(i);
                    chosen = i;
                }
        if (chosen == lp.columns()) return; // every count is fixed and was tried
        const std::int64_t below =
            std::clamp(static_cast<std::int64_t>(std::floor(lp.values()[chosen] + 1e-9)),
                       lp.least(chosen), lp.most(chosen) - 1);
        for (const bool up : {true, false}) {
            CoverLp child = lp;
            child.set_bounds(chosen, up ? below + 1 : lp.least(chosen),
                             up ? lp.most(chosen) : below);
            node(child, depth + 1);
            if (!proven_) return;
        }
    }

    const BareMix& mix_;
    const BareItem& controller_;
    const std::vector<ChannelClass>& onboard_;
    const std::vector<Column>& columns_;
    const BareLimits& limits_;
    std::int64_t own_;
    Work& work_;
    std::vector<Signals> sets_;
    std::optional<std::int64_t> best_;
    std::optional<std::vector<std::int64_t>> found_;
    bool proven_ = true;
};

void add_counts(BareAnswer& answer, const BareItem& controller, const std::vector<Column>& columns,
                const std::vector<std::int64_t>& counts, const BareFamily& family) {
    std::map<const BareItem*, std::int64_t> by_item{{&controller, 1}};
    for (std::size_t i = 0; i < counts.size(); ++i)
        if (counts[i] > 0) by_item[columns[i].item] += counts[i];
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
    std::vector<const BareItem*> controllers;
    for (const BareItem& item : family.controllers) controllers.push_back(&item);
    std::stable_sort(controllers.begin(), controllers.end(),
                     [&](const BareItem* a, const BareItem* b) {
                         return weighed(*a, weights) < weighed(*b, weights);
                     });
    for (const BareItem* controller : controllers)
        for (const auto& onboard : ways_of(*controller, asked_kinds(mix.need))) {
            ControllerSearch search(mix, *controller, onboard, columns, limits, weights, work);
            const auto counts = search.run(best);
            answer.proven = answer.proven && search.proven();
            if (!counts) continue;
            answer.feasible = true;
            add_counts(answer, *controller, columns, *counts, family);
        }
    return answer;
}

} // namespace backplate
