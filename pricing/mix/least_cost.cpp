#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "pricing/mix/bare_columns.h"
#include "pricing/mix/cover_lp.h"

namespace backplate {
namespace {

using Column = BareColumn;
using Kind = BareColumn::Kind;

/// The search around one controller.
class ControllerSearch {
public:
    ControllerSearch(const BareMix& mix, const BareItem& controller, std::vector<Column> columns,
                     const BareLimits& limits, const BareWeights& weights, Work& work)
        : mix_(mix), controller_(controller),
          onboard_(channels_of(controller, asked_kinds(mix.need))), columns_(std::move(columns)),
          limits_(limits), own_(weighed(controller, weights)), work_(work) {
        add_choices(columns_, onboard_, Column::controller, mix.need);
        for (const Column& column : columns_)
            for (const ChannelClass& each : column.gives.classes) add_set(each.accepts);
        for (std::size_t kind = 0; kind < mix.need.size(); ++kind) add_set(Signals{1} << kind);
        add_unions();
        lp_.emplace(program());
        possible_ = tighten(*lp_, most_rounds);
    }

    /// No choice around this controller costs less; nothing: there is none.
    std::optional<std::int64_t> bound() const {
        return possible_ ? std::optional(own_ + lp_->bound()) : std::nullopt;
    }

    /// Counts cheaper than `best`, if there are any; lowers `best`.
    std::optional<std::vector<std::int64_t>> run(std::optional<std::int64_t>& best) {
        best_ = best ? std::optional(*best - own_) : std::nullopt;
        node(*lp_, 0);
        if (found_) best = *best_ + own_;
        return found_;
    }
    bool proven() const { return proven_; }
    const BareItem& controller() const { return controller_; }
    const std::vector<Column>& columns() const { return columns_; }

private:
    static constexpr int most_rounds = 200, rounds_below = 4;
    static constexpr std::size_t most_sets = 300;

    void add_set(Signals kinds) {
        kinds &= asked_kinds(mix_.need);
        if (kinds && std::find(sets_.begin(), sets_.end(), kinds) == sets_.end())
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
            most.push_back(column.kind == Kind::head ? controller_.most_heads : column.most);
        }
        CoverLp lp(std::move(costs), std::move(most));
        const auto row = [&](const auto& coefficient, std::int64_t least) {
            CoverRow made;
            for (const Column& column : columns_)
                made.coefficients.push_back(column.item ? coefficient(column) : 0);
            made.least = least;
            lp.add_row(std::move(made));
        };
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
        add_choice_rows(lp, onboard_, Column::controller);
        for (std::size_t i = 0; i < columns_.size(); ++i) add_choice_rows(lp, columns_[i].gives, i);
        for (const Signals set : sets_)
            if ((set & (set - 1)) == 0) lp.add_row(hall_row(set, false));
        return lp;
    }

    /// No more groups of one kind are given to kinds than there are.
    void add_choice_rows(CoverLp& lp, const ItemChannels& gives, std::size_t owner) const {
        for (std::size_t place = 0; place < gives.one_kind.size(); ++place) {
            CoverRow row;
            const std::int64_t count = gives.one_kind[place].count;
            row.coefficients.assign(columns_.size(), 0);
            for (std::size_t i = 0; i < columns_.size(); ++i)
                if (columns_[i].kind == Kind::choice && columns_[i].owner == owner &&
                    columns_[i].groups == place)
                    row.coefficients[i] = -1;
            if (owner == Column::controller)
                row.least = -count;
            else
                row.coefficients[owner] = count;
            lp.add_row(std::move(row));
        }
    }

    /// Channels for the set are at least its need. Pooled: a one-kind group that accepts no other
    /// kinds counts with its item, not with its choices.
    CoverRow hall_row(Signals set, bool pooled) const {
        CoverRow row;
        const auto channels = [&](const ItemChannels& gives) {
            return pooled ? whole_channels(gives, set) : channels_for(gives.classes, set);
        };
        for (const Column& column : columns_)
            row.coefficients.push_back(pooled && column.kind == Kind::choice &&
                                               (accepted_by(column) & ~set) == 0
                                           ? 0
                                           : channels(column.gives));
        row.least = need_of(mix_.need, set) - channels(onboard_);
        return row;
    }

    /// What the group of a choice accepts.
    Signals accepted_by(const Column& choice) const {
        const ItemChannels& gives =
            choice.owner == Column::controller ? onboard_ : columns_[choice.owner].gives;
        return gives.one_kind[choice.groups].each.accepts;
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

    bool chooses() const {
        return std::any_of(columns_.begin(), columns_.end(),
                           [](const Column& each) { return each.kind == Kind::choice; });
    }

    static double missing(const CoverRow& row, const std::vector<double>& values) {
        double sum = 0;
        for (std::size_t i = 0; i < values.size(); ++i)
            sum += static_cast<double>(row.coefficients[i]) * values[i];
        return (static_cast<double>(row.least) - sum) /
               (1 + std::abs(static_cast<double>(row.least)));
    }

    using Cuts = std::vector<std::pair<double, CoverRow>>; // with what is missing

    /// The row and its roundings where the values break them.
    static void look_for_cuts(const CoverRow& row, const std::vector<double>& values, Cuts& cuts) {
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

    /// Rows of the sets and their roundings that the values break; false: none.
    bool cut(CoverLp& lp) {
        const std::vector<double> values = lp.values();
        if (const auto set = broken_set(values)) add_set(*set);
        Cuts cuts;
        for (const Signals set : sets_) {
            for (const bool pooled : {false, true}) {
                const CoverRow row = hall_row(set, pooled);
                if (row.least > 0 && (!pooled || chooses())) look_for_cuts(row, values, cuts);
            }
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
        for (const ChannelClass& each : onboard_.classes)
            classes.push_back({each.accepts, each.channels * std::int64_t{1000000}});
        for (std::size_t i = 0; i < columns_.size(); ++i)
            for (const ChannelClass& each : columns_[i].gives.classes)
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
        std::vector<ChannelClass> classes = onboard_.classes;
        for (std::size_t i = 0; i < counts.size(); ++i)
            for (const ChannelClass& each : columns_[i].gives.classes)
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

    /// Solves the program and adds what its values break, over and over; false: impossible.
    bool tighten(CoverLp& lp, int rounds) {
        for (int round = 0;; ++round) {
            const CoverLp::State state = lp.solve();
            if (state == CoverLp::State::impossible) return false;
            if (state == CoverLp::State::unknown || round == rounds || beaten(lp) || !cut(lp))
                return true;
        }
    }

    void node(CoverLp& lp, int depth) {
        work_.check_stop();
        ++work_.counts.candidates;
        if (work_.exhausted()) {
            proven_ = false;
            return;
        }
        if (depth > 0 && !tighten(lp, rounds_below)) return;
        if (beaten(lp)) return;
        try_counts(lp, rounded_up(lp));
        if (beaten(lp)) return;
        branch(lp, depth);
    }

    /// The nearest whole counts where the values are whole, else the next ones above; items as
    /// many as their choices ask for.
    std::vector<std::int64_t> rounded_up(const CoverLp& lp) const {
        std::vector<std::int64_t> counts;
        std::map<std::pair<std::size_t, std::size_t>, std::int64_t> chosen;
        for (std::size_t i = 0; i < lp.columns(); ++i) {
            counts.push_back(std::clamp(static_cast<std::int64_t>(std::ceil(lp.values()[i] - 1e-6)),
                                        lp.least(i), lp.most(i)));
            if (columns_[i].kind == Kind::choice && columns_[i].owner != Column::controller)
                chosen[{columns_[i].owner, columns_[i].groups}] += counts.back();
        }
        for (const auto& [groups, count] : chosen) {
            const std::int64_t each = columns_[groups.first].gives.one_kind[groups.second].count;
            counts[groups.first] = std::max(counts[groups.first], (count + each - 1) / each);
        }
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
    ItemChannels onboard_;
    std::vector<Column> columns_;
    const BareLimits& limits_;
    std::int64_t own_;
    Work& work_;
    std::vector<Signals> sets_;
    std::optional<CoverLp> lp_; ///< at the root
    bool possible_ = true;
    std::optional<std::int64_t> best_;
    std::optional<std::vector<std::int64_t>> found_;
    bool proven_ = true;
};

void add_counts(BareAnswer& answer, const BareItem& controller, const std::vector<Column>& columns,
                const std::vector<std::int64_t>& counts, const BareFamily& family) {
    std::map<const BareItem*, std::int64_t> by_item{{&controller, 1}};
    for (std::size_t i = 0; i < counts.size(); ++i)
        if (counts[i] > 0 && columns[i].item) by_item[columns[i].item] += counts[i];
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
    for (const BareItem& controller : family.controllers) {
        searches.push_back(
            std::make_unique<ControllerSearch>(mix, controller, columns, limits, weights, work));
        if (!searches.back()->bound()) searches.pop_back();
    }
    std::stable_sort(searches.begin(), searches.end(),
                     [](const auto& a, const auto& b) { return *a->bound() < *b->bound(); });
    for (const auto& search : searches) {
        const auto counts = search->run(best);
        answer.proven = answer.proven && search->proven();
        if (!counts) continue;
        answer.feasible = true;
        add_counts(answer, search->controller(), search->columns(), *counts, family);
    }
    return answer;
}

} // namespace backplate
