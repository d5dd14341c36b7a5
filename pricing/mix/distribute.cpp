#include "pricing/mix/distribute.h"

#include <algorithm>
#include <utility>

#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

/// The channels of one group against the open lines.
struct GroupCase {
    std::vector<int> most;          ///< by line: at most this many of the line
    std::vector<int> acceptable;    ///< by line: what the group could ever carry of it
    std::vector<std::int64_t> need; ///< by line: what a channel takes of the common current
    std::vector<int> signal;        ///< by line: equal numbers are the same signal
    bool one_signal = false;        ///< its channels serve one signal
    int channels = 0;
    std::int64_t common = 0; ///< what the channels give together
};

GroupCase case_of(const ChannelGroup& group, const MixProblem& problem,
                  const std::vector<int>& open) {
    GroupCase result;
    for (std::size_t i = 0; i < problem.lines.size(); ++i) {
        const int may = accepts(group, problem.lines[i]);
        result.acceptable.push_back(may);
        result.most.push_back(std::min(may, open[i]));
        result.need.push_back(common_need(problem.lines[i]));
        const auto same =
            std::find_if(problem.lines.begin(), problem.lines.end(), [&](const MixLine& line) {
                return line.signal == problem.lines[i].signal;
            });
        result.signal.push_back(static_cast<int>(same - problem.lines.begin()));
    }
    result.one_signal = group.one_signal;
    result.channels = group.channels;
    result.common = common_limit(group);
    return result;
}

/// What is left of a group, and what it carries.
struct Filling {
    int channels = 0;
    std::int64_t common = 0;
    std::vector<int> carried;
    int signal = -1; ///< what a group of one signal was set to; -1: not yet

    bool serves(const GroupCase& group, std::size_t line) const {
        return !group.one_signal || signal < 0 || signal == group.signal[line];
    }
    int most(const GroupCase& group, std::size_t line) const {
        if (!serves(group, line)) return 0;
        const int more = std::min(channels, group.most[line] - carried[line]);
        if (more <= 0 || group.need[line] == 0) return more;
        return static_cast<int>(std::min<std::int64_t>(more, common / group.need[line]));
    }
    void take(const GroupCase& group, std::size_t line, int count) {
        channels -= count;
        common -= count * group.need[line];
        carried[line] += count;
        if (count > 0) signal = group.signal[line];
    }
    /// Channels that could still serve the line, were more of it asked for.
    int idle(const GroupCase& group, std::size_t line) const {
        if (group.need[line] == 0) return channels;
        return static_cast<int>(std::min<std::int64_t>(channels, common / group.need[line]));
    }
};

/// The line that the unused channels of a group count to: the dearest it may still carry.
int dearest(const GroupCase& group, const MixProblem& problem, const Filling& filling) {
    int best = -1;
    std::pair<std::int64_t, std::int64_t> worth{-1, -1};
    for (std::size_t i = 0; i < group.acceptable.size(); ++i) {
        const ExtraChannel& extra = problem.extra[i];
        const std::pair own{extra.tested, extra.terminals + extra.wires};
        if (group.acceptable[i] > 0 && filling.serves(group, i) && own > worth) {
            worth = own;
            best = static_cast<int>(i);
        }
    }
    return best;
}

bool full(const GroupCase& group, const Filling& filling) {
    for (std::size_t line = 0; line < group.most.size(); ++line)
        if (filling.most(group, line) > 0) return false;
    return true;
}

/// Every filling to which nothing can be added; greedy: the first.
void fill_line(const GroupCase& group, std::size_t line, const Filling& filling,
               std::vector<Filling>& out, bool greedy) {
    if (line == group.most.size()) {
        if (full(group, filling)) out.push_back(filling);
        return;
    }
    for (int take = filling.most(group, line); take >= 0; --take) {
        Filling next = filling;
        next.take(group, line, take);
        fill_line(group, line + 1, next, out, greedy);
        if (greedy && !out.empty()) break;
    }
}

std::vector<Spread> extend(const std::vector<Spread>& before, const ChannelGroup& group,
                           const MixProblem& problem, const std::vector<int>& open, bool greedy) {
    std::vector<Spread> result;
    for (const Spread& spread : before) {
        std::vector<int> left = spread.carried;
        for (std::size_t i = 0; i < left.size(); ++i) left[i] = open[i] - left[i];
        const GroupCase group_case = case_of(group, problem, left);
        std::vector<Filling> ways;
        const Filling empty{group_case.channels, group_case.common,
                            std::vector<int>(left.size(), 0), -1};
        fill_line(group_case, 0, empty, ways, greedy);
        for (const Filling& way : ways) {
            Spread next = spread;
            for (std::size_t i = 0; i < left.size(); ++i) next.carried[i] += way.carried[i];
            if (!group.condition.empty())
                for (std::size_t i = 0; i < left.size(); ++i) next.conditional[i] += way.carried[i];
            const int rest = dearest(group_case, problem, way);
            if (rest >= 0) {
                const auto line = static_cast<std::size_t>(rest);
                next.extra[line] += way.idle(group_case, line);
            }
            result.push_back(std::move(next));
        }
    }
    return result;
}

} // namespace

std::vector<Spread> spreads(const Part& part, const MixProblem& problem,
                            const std::vector<int>& open, bool greedy) {
    const std::size_t lines = problem.lines.size();
    const std::vector<int> none(lines, 0);
    std::vector<Spread> result{{none, none, none}};
    for (const ChannelGroup& group : part.groups)
        result = extend(result, group, problem, open, greedy);
    return result;
}

} // namespace backplate
