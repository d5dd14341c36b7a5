#include "pricing/mix/mix_guide.h"

#include <algorithm>
#include <cmath>

#include "pricing/mix/accepts.h"
#include "pricing/mix/cover_lp.h"
#include "pricing/mix/distribute.h"

namespace backplate {
namespace {

/// Costs of the program are in millionths of the guide's unit, so that doubles hold them.
constexpr std::int64_t unit = 1'000'000;

/// Channels of one group that may carry a line.
struct Carries {
    std::size_t line = 0;
    int channels = 0;
};

std::vector<Carries> carries_of(const ChannelGroup& group, const MixProblem& problem) {
    std::vector<Carries> result;
    for (std::size_t i = 0; i < problem.lines.size(); ++i)
        if (const int channels = accepts(group, problem.lines[i])) result.push_back({i, channels});
    return result;
}

/// The covering program: modules, feeds, and the channels of flexible groups given to lines.
class GuideProgram {
public:
    GuideProgram(const MixProblem& problem, const std::vector<MixModule>& feeds,
                 const MixSums& rate, const MixRoom& room)
        : problem_(problem), feeds_(feeds), rate_(rate), room_(room) {
        for (const MixLine& line : problem.lines) need_.push_back(line.channels);
        for (const MixModule& module : problem.modules) add_column(at_rates(module.sums, rate));
        for (const MixModule& feed : feeds) add_column(at_rates(feed.sums, rate));
        add_demand();
        for (std::size_t m = 0; m < problem.modules.size(); ++m)
            for (const ChannelGroup& group : problem.modules[m].part->groups) add_group(group, m);
        for (const ChannelGroup& group : problem.controller.part->groups) add_onboard(group);
        add_room();
    }

    /// False: no choice keeps the rows, proven.
    bool solve() {
        std::vector<std::int64_t> most(costs_.size(), most_pieces);
        CoverLp lp(costs_, most);
        for (std::size_t m = 0; m < problem_.keep.size(); ++m)
            lp.set_bounds(m, problem_.keep[m], most_pieces);
        for (CoverRow& row : rows_) {
            row.coefficients.resize(costs_.size(), 0);
            lp.add_row(row);
        }
        if (lp.solve() == CoverLp::State::impossible) return false;
        bound_ = lp.bound();
        for (std::size_t i = 0; i < rows_.size(); ++i) multipliers_.push_back(lp.multiplier(i));
        return true;
    }
    std::int64_t bound() const { return bound_; }
    std::int64_t price(std::size_t line) const { return whole(demand_rows_ + line); }
    std::int64_t place() const { return whole(room_rows_); }
    std::int64_t bus() const { return whole(room_rows_ + 1); }
    std::int64_t width() const { return room_.width ? whole(room_rows_ + 2) : 0; }

private:
    static constexpr std::int64_t most_pieces = 1'000'000;

    void add_column(std::int64_t cost) { costs_.push_back(cost / unit); }
    CoverRow& add_row(std::int64_t least) {
        rows_.emplace_back().least = least;
        return rows_.back();
    }
    static void set(CoverRow& row, std::size_t column, std::int64_t coefficient) {
        if (row.coefficients.size() <= column) row.coefficients.resize(column + 1, 0);
        row.coefficients[column] += coefficient;
    }
    void add_demand() {
        demand_rows_ = rows_.size();
        for (const int need : need_) add_row(need);
    }
    /// Channels of a group that serves one line count at once, others by a column for each line.
    void add_group(const ChannelGroup& group, std::size_t module) {
        const auto carries = carries_of(group, problem_);
        if (carries.size() == 1)
            return set(rows_[demand_rows_ + carries[0].line], module, carries[0].channels);
        if (carries.empty()) return;
        const std::size_t row = rows_.size();
        set(add_row(0), module, group.channels);
        give(carries, row);
    }
    void add_onboard(const ChannelGroup& group) {
        const auto carries = carries_of(group, problem_);
        if (carries.empty()) return;
        const std::size_t row = rows_.size();
        add_row(-group.channels);
        give(carries, row);
    }
    void give(const std::vector<Carries>& carries, std::size_t row) {
        for (const Carries& each : carries) {
            const std::size_t column = costs_.size();
            add_column(0);
            set(rows_[row], column, -1);
            set(rows_[demand_rows_ + each.line], column, 1);
        }
    }
    void add_room() {
        room_rows_ = rows_.size();
        add_row(-room_.places);
        add_row(-room_.bus);
        if (room_.width) add_row(-*room_.width);
        const auto take = [&](const MixModule& module, std::size_t column, std::int64_t bus) {
            set(rows_[room_rows_], column, -module.sums[MixSums::places]);
            set(rows_[room_rows_ + 1], column, bus);
            if (room_.width) set(rows_[room_rows_ + 2], column, -module.sums[MixSums::width]);
        };
        for (std::size_t m = 0; m < problem_.modules.size(); ++m)
            take(problem_.modules[m], m, -problem_.modules[m].sums[MixSums::bus]);
        for (std::size_t f = 0; f < feeds_.size(); ++f)
            take(feeds_[f], problem_.modules.size() + f, limit_in(feeds_[f].part->bus_ma, 1));
    }
    std::int64_t whole(std::size_t row) const {
        return static_cast<std::int64_t>(
            std::floor(std::max(0.0, multipliers_[row]) * static_cast<double>(unit)));
    }

    const MixProblem& problem_;
    const std::vector<MixModule>& feeds_;
    const MixSums& rate_;
    MixRoom room_;
    std::vector<int> need_;
    std::vector<std::int64_t> costs_;
    std::vector<CoverRow> rows_;
    std::vector<double> multipliers_;
    std::size_t demand_rows_ = 0, room_rows_ = 0;
    std::int64_t bound_ = 0;
};

/// The most that one use of the part's channels may be worth at these prices.
std::int64_t most_worth(const Part& part, const MixProblem& problem,
                        const std::vector<std::int64_t>& prices) {
    std::int64_t worth = 0;
    for (const ChannelGroup& group : part.groups) {
        std::int64_t dearest = 0, together = 0;
        for (const Carries& each : carries_of(group, problem)) {
            dearest = std::max(dearest, prices[each.line]);
            together += prices[each.line] * each.channels;
        }
        worth += std::min(dearest * group.channels, together);
    }
    return worth;
}

/// Lowers the prices until no module is worth more than it costs.
void lower(std::vector<std::int64_t>& prices, const MixProblem& problem, const MixSums& rate) {
    std::int64_t cost = 1, worth = 1; // the least of cost ÷ worth
    for (const MixModule& module : problem.modules) {
        const std::int64_t own_cost = at_rates(module.sums, rate);
        const std::int64_t own_worth = most_worth(*module.part, problem, prices);
        if (own_worth > 0 && static_cast<double>(own_cost) * static_cast<double>(worth) <
                                 static_cast<double>(cost) * static_cast<double>(own_worth)) {
            cost = own_cost;
            worth = own_worth;
        }
    }
    for (std::int64_t& price : prices) price = multiply_divide(price, cost, worth, Rounding::down);
    for (const MixModule& module : problem.modules) // what the comparison in doubles missed
        while (most_worth(*module.part, problem, prices) > at_rates(module.sums, rate))
            for (std::int64_t& price : prices) price -= price / 1'000'000 + (price > 0 ? 1 : 0);
}

} // namespace

std::optional<GuidedMix> guided_mix(const MixProblem& problem, const Closers& closers,
                                    const MixSums& rate, const MixRoom& room) {
    GuideProgram program(problem, closers.feeds, rate, room);
    if (!program.solve()) return std::nullopt;
    GuidedMix result;
    MixSums& rates = result.guide.rate;
    rates = rate;
    rates[MixSums::places] += program.place();
    rates[MixSums::width] += program.width();
    std::int64_t bus = program.bus();
    for (const MixModule& feed : closers.feeds) // a feed gives no more than it costs
        if (const std::int64_t gives = limit_in(feed.part->bus_ma, 1))
            bus = std::min(bus, at_rates(feed.sums, rates) / gives);
    rates[MixSums::bus] += bus;
    std::vector<std::int64_t>& prices = result.guide.channels;
    for (std::size_t i = 0; i < problem.lines.size(); ++i) prices.push_back(program.price(i));
    lower(prices, problem, rates);
    std::vector<int> demand;
    for (std::size_t i = 0; i < prices.size(); ++i) {
        demand.push_back(problem.lines[i].channels);
        result.least += prices[i] * problem.lines[i].channels;
    }
    std::int64_t onboard = 0;
    for (const Spread& spread : spreads(*problem.controller.part, problem, demand, false)) {
        std::int64_t carried = 0;
        for (std::size_t i = 0; i < prices.size(); ++i) carried += prices[i] * spread.carried[i];
        onboard = std::max(onboard, carried);
    }
    result.least -= onboard + program.place() * room.places + bus * room.bus;
    if (room.width) result.least -= program.width() * *room.width;
    return result;
}

std::int64_t least_sum(const MixProblem& problem, MixSums::Index sum) {
    MixSums rate;
    rate[sum] = unit;
    MixRoom room;
    room.places = room.bus = std::int64_t{1} << 40;
    GuideProgram program(problem, {}, rate, room);
    return program.solve() ? program.bound() : 0;
}

} // namespace backplate
