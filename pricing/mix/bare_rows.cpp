#include "pricing/mix/bare_rows.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace backplate {
namespace {

using Kind = BareColumn::Kind;

constexpr std::size_t most_unions = 300; // sets looked at from the start
constexpr std::size_t most_cuts = 12;    // rows added at once

/// Columns whose value is not 0.
using Support = std::vector<std::pair<std::size_t, double>>;

/// What the values lack of the row, over its size.
double missing(const CoverRow& row, const Support& support) {
    double sum = 0;
    for (const auto& [column, value] : support)
        sum += static_cast<double>(row.coefficients[column]) * value;
    const auto least = static_cast<double>(row.least);
    return (least - sum) / (1 + least);
}

/// The row of a set rounded by `size`: with rest r of the need over whole sizes, a column counts
/// whole sizes times r and of what is over at most r.
CoverRow rounded(const CoverRow& row, std::int64_t size) {
    const std::int64_t whole = (row.least + size - 1) / size;
    const std::int64_t rest = row.least - (whole - 1) * size;
    CoverRow result;
    for (const std::int64_t a : row.coefficients)
        result.coefficients.push_back(a / size * rest + std::min(rest, a % size));
    result.least = rest * whole;
    return result;
}

/// The sizes of the row by which a rounding says more.
std::vector<std::int64_t> sizes_of(const CoverRow& row) {
    std::vector<std::int64_t> sizes = row.coefficients;
    std::sort(sizes.begin(), sizes.end());
    sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
    std::erase_if(sizes, [&](std::int64_t size) { return size <= 1 || row.least % size == 0; });
    return sizes;
}

} // namespace

BareRows::BareRows(const BareMix& mix, const BareItem& controller, std::vector<BareColumn> columns,
                   const BareLimits& limits)
    : mix_(mix), controller_(controller), onboard_(channels_of(controller, asked_kinds(mix.need))),
      columns_(std::move(columns)) {
    add_choices(columns_, onboard_, BareColumn::controller, mix.need);
    add_limits(limits);
    add_choice_rows(onboard_, BareColumn::controller);
    for (std::size_t i = 0; i < columns_.size(); ++i) add_choice_rows(columns_[i].gives, i);
    chooses_ = std::any_of(columns_.begin(), columns_.end(),
                           [](const BareColumn& each) { return each.kind == Kind::choice; });
    for (const BareColumn& column : columns_) {
        for (const ChannelClass& each : column.gives.classes) add_set(each.accepts);
        for (const OneKindGroups& groups : column.gives.one_kind) add_set(groups.each.accepts);
    }
    for (std::size_t kind = 0; kind < mix.need.size(); ++kind) add_set(Signals{1} << kind);
    add_unions();
}

void BareRows::add_set(Signals kinds) {
    kinds &= asked_kinds(mix_.need);
    if (!kinds || std::find(sets_.begin(), sets_.end(), kinds) != sets_.end()) return;
    sets_.push_back(kinds);
    for (const bool pooled : {false, true}) {
        if (pooled && !chooses_) continue;
        CoverRow row = hall_row(kinds, pooled);
        if (row.least <= 0) continue;
        for (const std::int64_t size : sizes_of(row)) hall_.push_back(rounded(row, size));
        hall_.push_back(std::move(row));
    }
}

/// Unions of sets that share a kind, until there are enough.
void BareRows::add_unions() {
    for (std::size_t i = 0; i < sets_.size() && sets_.size() < most_unions; ++i)
        for (std::size_t k = 0; k < i; ++k)
            if (sets_[i] & sets_[k]) add_set(sets_[i] | sets_[k]);
    Signals all = 0;
    for (const Signals set : sets_) all |= set;
    add_set(all);
}

void BareRows::add_limits(const BareLimits& limits) {
    using Column = BareColumn;
    const auto row = [&](const auto& coefficient, std::int64_t least) {
        CoverRow& made = limits_.emplace_back();
        for (const Column& column : columns_)
            made.coefficients.push_back(column.item ? coefficient(column) : 0);
        made.least = least;
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
    for (std::size_t k = 0; k < limits.size(); ++k)
        if (limits[k])
            row([k](const Column& c) { return -c.item->sums[k]; },
                controller_.sums[k] - *limits[k]);
}

CoverLp BareRows::program() const {
    std::vector<std::int64_t> costs, most;
    for (const BareColumn& column : columns_) {
        costs.push_back(column.cost);
        most.push_back(column.kind == Kind::head ? controller_.most_heads : column.most);
    }
    CoverLp lp(std::move(costs), std::move(most));
    for (const CoverRow& row : limits_) lp.add_row(row);
    for (const Signals set : sets_)
        if (std::has_single_bit(set)) lp.add_row(hall_row(set, false));
    return lp;
}

/// No more groups of one kind are given to kinds than there are.
void BareRows::add_choice_rows(const ItemChannels& gives, std::size_t owner) {
    for (std::size_t place = 0; place < gives.one_kind.size(); ++place) {
        CoverRow row;
        const std::int64_t count = gives.one_kind[place].count;
        row.coefficients.assign(columns_.size(), 0);
        for (std::size_t i = 0; i < columns_.size(); ++i)
            if (columns_[i].kind == Kind::choice && columns_[i].owner == owner &&
                columns_[i].groups == place)
                row.coefficients[i] = -1;
        if (owner == BareColumn::controller)
            row.least = -count;
        else
            row.coefficients[owner] = count;
        limits_.push_back(std::move(row));
    }
}

/// Channels for the set are at least its need. Pooled: a one-kind group that accepts no other
/// kinds counts with its item, not with its choices.
CoverRow BareRows::hall_row(Signals set, bool pooled) const {
    CoverRow row;
    const auto channels = [&](const ItemChannels& gives) {
        return pooled ? whole_channels(gives, set) : channels_for(gives.classes, set);
    };
    for (const BareColumn& column : columns_)
        row.coefficients.push_back(pooled && column.kind == Kind::choice &&
                                           (accepted_by(column) & ~set) == 0
                                       ? 0
                                       : channels(column.gives));
    row.least = need_of(mix_.need, set) - channels(onboard_);
    return row;
}

/// What the group of a choice accepts.
Signals BareRows::accepted_by(const BareColumn& choice) const {
    const ItemChannels& gives =
        choice.owner == BareColumn::controller ? onboard_ : columns_[choice.owner].gives;
    return gives.one_kind[choice.groups].each.accepts;
}

bool BareRows::cut(CoverLp& lp) {
    const std::vector<double>& values = lp.values();
    if (const auto set = broken_set(values)) add_set(*set);
    Support support;
    for (std::size_t i = 0; i < values.size(); ++i)
        if (values[i] != 0) support.emplace_back(i, values[i]);
    std::vector<std::pair<double, const CoverRow*>> cuts; // with what is missing
    for (const CoverRow& row : hall_)
        if (const double out = missing(row, support); out > 1e-5) cuts.emplace_back(out, &row);
    std::stable_sort(cuts.begin(), cuts.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    for (std::size_t i = 0; i < cuts.size() && i < most_cuts; ++i) lp.add_row(*cuts[i].second);
    return !cuts.empty();
}

std::optional<Signals> BareRows::broken_set(const std::vector<double>& values) const {
    // doubles to whole parts of a channel; a thousandth of one may be missing
    constexpr std::int64_t scale = 1000000;
    std::vector<ChannelClass> classes;
    for (const ChannelClass& each : onboard_.classes)
        classes.push_back({each.accepts, each.channels * scale});
    for (std::size_t i = 0; i < columns_.size(); ++i)
        for (const ChannelClass& each : columns_[i].gives.classes)
            if (const auto channels =
                    std::llround(values[i] * static_cast<double>(each.channels * scale));
                channels > 0)
                classes.push_back({each.accepts, channels});
    std::vector<std::int64_t> need;
    for (const std::int64_t each : mix_.need)
        need.push_back(std::max<std::int64_t>(0, each * scale - (each > 0 ? scale / 1000 : 0)));
    return short_kinds(classes, need);
}

bool BareRows::sound(const std::vector<std::int64_t>& counts) {
    for (const CoverRow& row : limits_) {
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

} // namespace backplate
