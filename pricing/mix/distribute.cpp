#include "pricing/mix/distribute.h"

#include <algorithm>
#include <utility>

#include "pricing/mix/accepts.h"

namespace backplate {

/// What is left of a group, and what it carries.
struct SpreadSearch::Filling {
    int channels = 0;
    std::int64_t common = 0;
    std::vector<int> carried;
    int signal = -1;        ///< what a group of one signal was set to; -1: not yet
    std::int64_t worth = 0; ///< of what it carries

    bool serves(const GroupFacts& group, std::size_t line) const {
        return !group.one_signal || signal < 0 || signal == group.signal[line];
    }
    int most(const GroupCase& group, std::size_t line) const {
        if (!serves(group.facts, line)) return 0;
        const int more = std::min(channels, group.most[line] - carried[line]);
        const std::int64_t need = group.facts.need[line];
        if (more <= 0 || need == 0) return more;
        return static_cast<int>(std::min<std::int64_t>(more, common / need));
    }
    void take(const GroupFacts& group, std::size_t line, int count) {
        channels -= count;
        common -= count * group.need[line];
        carried[line] += count;
        if (count > 0) signal = group.signal[line];
    }
    /// Channels that could still serve the line, were more of it asked for.
    int idle(const GroupFacts& group, std::size_t line) const {
        if (group.need[line] == 0) return channels;
        return static_cast<int>(std::min<std::int64_t>(channels, common / group.need[line]));
    }
    /// Nothing can be added.
    bool full(const GroupCase& group) const {
        for (std::size_t line = 0; line < group.most.size(); ++line)
            if (most(group, line) > 0) return false;
        return true;
    }
};

std::vector<GroupFacts> group_facts(const Part& part, const MixProblem& problem) {
    std::vector<GroupFacts> result;
    const auto& lines = problem.lines;
    for (const ChannelGroup& group : part.groups) {
        GroupFacts facts;
        for (const MixLine& own : lines) {
            facts.acceptable.push_back(accepts(group, own));
            facts.need.push_back(common_need(own));
            const auto same = std::find_if(lines.begin(), lines.end(), [&](const MixLine& line) {
                return line.signal == own.signal;
            });
            facts.signal.push_back(static_cast<int>(same - lines.begin()));
        }
        facts.one_signal = group.one_signal;
        facts.conditional = !group.condition.empty();
        facts.channels = group.channels;
        facts.common = common_limit(group);
        result.push_back(std::move(facts));
    }
    return result;
}

SpreadSearch::GroupCase SpreadSearch::case_of(const GroupFacts& group,
                                              const std::vector<int>& carried) const {
    GroupCase result{group, {}, {}};
    const std::size_t lines = carried.size();
    for (std::size_t i = 0; i < lines; ++i)
        result.most.push_back(std::min(group.acceptable[i], open_[i] - carried[i]));
    if (!worth_) return result;
    result.dearest.assign(lines + 1, 0);
    for (std::size_t i = lines; i-- > 0;)
        result.dearest[i] = std::max(result.dearest[i + 1], result.most[i] > 0 ? price(i) : 0);
    return result;
}

/// The line that the unused channels of a group count to: the dearest it may still carry.
int SpreadSearch::dearest(const GroupFacts& group, const Filling& filling) const {
    int best = -1;
    std::pair<std::int64_t, std::int64_t> worth{-1, -1};
    for (std::size_t i = 0; i < group.acceptable.size(); ++i) {
        const ExtraChannel& extra = problem_.extra[i];
        const std::pair own{extra.tested, extra.terminals + extra.wires};
        if (group.acceptable[i] > 0 && filling.serves(group, i) && own > worth) {
            worth = own;
            best = static_cast<int>(i);
        }
    }
    return best;
}

/// Every filling worth enough to which nothing can be added; greedy: the first.
void SpreadSearch::fill_line(const GroupCase& group, std::size_t line, const Filling& filling,
                             std::int64_t least, std::vector<Filling>& out) {
    if (worth_ && filling.worth + filling.channels * group.dearest[line] < least) {
        left_out_ = true;
        return;
    }
    while (line < group.most.size() && filling.most(group, line) == 0) ++line;
    if (line == group.most.size()) {
        if (filling.full(group)) out.push_back(filling);
        return;
    }
    for (int take = filling.most(group, line); take >= 0; --take) {
        Filling next = filling;
        next.take(group.facts, line, take);
        if (worth_) next.worth += take * price(line);
        fill_line(group, line + 1, next, least, out);
        if (greedy_ && !out.empty()) break;
    }
}

std::int64_t SpreadSearch::worth_of(const std::vector<int>& carried) const {
    std::int64_t worth = 0;
    for (std::size_t i = 0; i < carried.size(); ++i) worth += carried[i] * price(i);
    return worth;
}

std::int64_t SpreadSearch::most_worth(const GroupFacts& group) const {
    std::int64_t most = 0;
    for (std::size_t i = 0; i < group.acceptable.size(); ++i)
        if (open_[i] > 0 && group.acceptable[i] > 0) most = std::max(most, price(i));
    return most * group.channels;
}

std::vector<Spread> SpreadSearch::extend(const std::vector<Spread>& before, std::size_t at) {
    const GroupFacts& group = groups_[at];
    std::int64_t least = worth_ && !greedy_ ? worth_->least : 0;
    for (std::size_t i = at + 1; worth_ && i < groups_.size(); ++i) least -= most_worth(groups_[i]);
    std::vector<Spread> result;
    for (const Spread& spread : before) {
        const GroupCase group_case = case_of(group, spread.carried);
        std::vector<Filling> ways;
        const Filling empty{group.channels, group.common,
                            std::vector<int>(spread.carried.size(), 0)};
        fill_line(group_case, 0, empty, worth_ ? least - worth_of(spread.carried) : 0, ways);
        for (const Filling& way : ways) {
            Spread next = spread;
            for (std::size_t i = 0; i < way.carried.size(); ++i) next.carried[i] += way.carried[i];
            if (group.conditional)
                for (std::size_t i = 0; i < way.carried.size(); ++i)
                    next.conditional[i] += way.carried[i];
            const int rest = dearest(group, way);
            if (rest >= 0) {
                const auto line = static_cast<std::size_t>(rest);
                next.extra[line] += way.idle(group, line);
            }
            result.push_back(std::move(next));
        }
    }
    return result;
}

std::vector<Spread> SpreadSearch::run() {
    const std::vector<int> none(problem_.lines.size(), 0);
    std::vector<Spread> result{{none, none, none}};
    for (std::size_t group = 0; group < groups_.size(); ++group) result = extend(result, group);
    return result;
}

std::vector<Spread> spreads(const Part& part, const MixProblem& problem,
                            const std::vector<int>& open, bool greedy) {
    const std::vector<GroupFacts> groups = group_facts(part, problem);
    return SpreadSearch(groups, problem, open, greedy).run();
}

} // namespace backplate
