#include "pricing/mix/distribute.h"

#include <algorithm>

#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

/// The channels of one group against the open lines.
struct GroupCase {
    std::vector<int> most;       ///< by line: at most this many of the line
    std::vector<int> acceptable; ///< by line: what the group could ever carry of it
    int fill = 0;                ///< channels that find an open line
};

GroupCase case_of(const ChannelGroup& group, const MixProblem& problem,
                  const std::vector<int>& open) {
    GroupCase result;
    int wanted = 0;
    for (std::size_t i = 0; i < problem.lines.size(); ++i) {
        const int may = accepts(group, problem.lines[i]);
        result.acceptable.push_back(may);
        result.most.push_back(std::min(may, open[i]));
        wanted += result.most.back();
    }
    result.fill = std::min(group.channels, wanted);
    return result;
}

/// The line that the unused channels of a group count to: the dearest it may carry.
int dearest(const GroupCase& group, const MixProblem& problem) {
    int best = -1;
    std::int64_t worth = -1;
    for (std::size_t i = 0; i < group.acceptable.size(); ++i) {
        const ExtraChannel& extra = problem.extra[i];
        const std::int64_t own = (extra.terminals + extra.wires) * 1000 + extra.tested;
        if (group.acceptable[i] > 0 && own > worth) {
            worth = own;
            best = static_cast<int>(i);
        }
    }
    return best;
}

void fill_line(const GroupCase& group, std::size_t line, int left, std::vector<int>& carried,
               std::vector<std::vector<int>>& out, bool greedy) {
    if (line == group.most.size()) {
        if (left == 0) out.push_back(carried);
        return;
    }
    int after = 0;
    for (std::size_t i = line + 1; i < group.most.size(); ++i) after += group.most[i];
    const int high = std::min(left, group.most[line]);
    const int low = std::max(0, left - after);
    for (int take = high; take >= low; --take) {
        carried[line] = take;
        fill_line(group, line + 1, left - take, carried, out, greedy);
        if (greedy && !out.empty()) break;
    }
    carried[line] = 0;
}

std::vector<Spread> extend(const std::vector<Spread>& before, const ChannelGroup& group,
                           const MixProblem& problem, const std::vector<int>& open, bool greedy) {
    std::vector<Spread> result;
    for (const Spread& spread : before) {
        std::vector<int> left = open;
        for (std::size_t i = 0; i < left.size(); ++i) left[i] -= spread.carried[i];
        const GroupCase group_case = case_of(group, problem, left);
        const int rest = dearest(group_case, problem);
        std::vector<std::vector<int>> ways;
        std::vector<int> carried(left.size(), 0);
        fill_line(group_case, 0, group_case.fill, carried, ways, greedy);
        for (const std::vector<int>& way : ways) {
            Spread next = spread;
            for (std::size_t i = 0; i < way.size(); ++i) next.carried[i] += way[i];
            if (rest >= 0) {
                const auto line = static_cast<std::size_t>(rest);
                next.extra[line] += std::max(0, group_case.acceptable[line] - group_case.fill);
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
    std::vector<Spread> result{{std::vector<int>(lines, 0), std::vector<int>(lines, 0)}};
    for (const ChannelGroup& group : part.groups)
        result = extend(result, group, problem, open, greedy);
    return result;
}

} // namespace backplate
