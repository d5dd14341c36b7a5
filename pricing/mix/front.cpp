#include "pricing/mix/front.h"

#include <algorithm>
#include <bit>
#include <numeric>

#include "pricing/mix/accepts.h"
#include "pricing/mix/component_paths.h"

namespace backplate {

MixSums& MixSums::operator+=(const MixSums& other) {
    for (std::size_t i = 0; i < value.size(); ++i) value[i] += other.value[i];
    return *this;
}

bool no_worse(const MixSums& a, std::uint64_t kinds_a, const MixSums& b, std::uint64_t kinds_b,
              std::optional<std::int64_t> article_cost) {
    const int more = std::popcount(kinds_a & ~kinds_b);
    if (more > 0 && !article_cost) return false;
    if (a[MixSums::cost] + more * article_cost.value_or(0) > b[MixSums::cost]) return false;
    for (std::size_t i = MixSums::cost + 1; i < a.value.size(); ++i)
        if (a.value[i] > b.value[i]) return false;
    return true;
}

void tell_shapes(MixProblem& problem) {
    for (MixModule& module : problem.modules) {
        const auto places = static_cast<std::uint64_t>(module.sums[MixSums::places]);
        const auto bus = static_cast<std::uint64_t>(module.sums[MixSums::bus]);
        std::uint64_t mixed = places * 0x9e3779b97f4a7c15U + bus + 1; // splitmix64, from memory
        mixed = (mixed ^ (mixed >> 30)) * 0xbf58476d1ce4e5b9U;
        mixed = (mixed ^ (mixed >> 27)) * 0x94d049bb133111ebU;
        module.shape = mixed ^ (mixed >> 31);
    }
}

std::int64_t at_rates(const MixSums& sums, const MixSums& rate) {
    std::int64_t total = 0;
    for (std::size_t i = 0; i < sums.value.size(); ++i) total += sums.value[i] * rate.value[i];
    return total;
}

std::vector<int> mix_components(const MixProblem& problem) {
    std::vector<int> root(problem.lines.size());
    std::iota(root.begin(), root.end(), 0);
    const auto link = [&](const Part& part) {
        int first = -1;
        for (std::size_t i = 0; i < problem.lines.size(); ++i) {
            const bool carries =
                std::any_of(part.groups.begin(), part.groups.end(), [&](const ChannelGroup& group) {
                    return accepts(group, problem.lines[i]) > 0;
                });
            if (!carries) continue;
            const int old = root[i];
            if (first < 0) first = old;
            for (int& entry : root)
                if (entry == old) entry = first;
        }
    };
    for (const MixModule& module : problem.modules) link(*module.part);
    link(*problem.controller.part);
    return root;
}

namespace {

/// The component of the lines that the part may carry; that of the first line where it carries
/// none.
int component_of(const Part& part, const MixProblem& problem, const std::vector<int>& roots) {
    for (std::size_t i = 0; i < problem.lines.size(); ++i)
        for (const ChannelGroup& group : part.groups)
            if (accepts(group, problem.lines[i]) > 0) return roots[i];
    return roots.empty() ? 0 : roots.front();
}

/// What the components together have chosen so far.
struct Joint {
    MixSums sums;
    std::uint64_t kinds = 0, shape = 0;
    std::int64_t excess = 0;
    std::vector<int> picks; ///< label by component
};

/// The front around one way to use the controller's own channels.
class SpreadFront {
public:
    SpreadFront(const MixProblem& problem, const MixGuide* guide, const std::vector<int>& roots,
                Work& work)
        : problem_(problem), guide_(guide), roots_(roots), work_(work) {}

    /// Adds the members; `excess`: of the controller's own channels.
    void add(const Spread& onboard, std::int64_t excess, MixFront& front) {
        const std::int64_t limit = guide_ ? guide_->limit : ComponentPaths::no_limit;
        std::vector<ComponentPaths> paths;
        std::vector<std::vector<int>> opens;
        std::vector<std::int64_t> least;
        for (std::size_t root = 0; root < roots_.size(); ++root) {
            if (roots_[root] != static_cast<int>(root)) continue;
            opens.push_back(open_of(static_cast<int>(root), onboard));
            paths.emplace_back(problem_, guide_, work_);
            const auto own = guide_ ? paths.back().least_excess(opens.back(), limit - excess)
                                    : std::optional(std::int64_t{0});
            if (!own) { // the others are not asked any more
                front.complete = front.complete && paths.back().complete();
                front.proven = front.proven && paths.back().proven();
                return;
            }
            least.push_back(*own);
            excess += *own;
        }
        if (excess > limit) {
            front.complete = false;
            return note(paths, front);
        }
        join(onboard, paths, opens, least, excess, front);
        if (guide_ && guide_->least_only) complete_ = false;
        front.complete = front.complete && complete_;
        front.proven = front.proven && proven_;
        note(paths, front);
    }

private:
    /// Channels of the component left open, then its kept modules.
    std::vector<int> open_of(int root, const Spread& onboard) const {
        std::vector<int> open(problem_.lines.size() + problem_.keep.size(), 0);
        for (std::size_t i = 0; i < roots_.size(); ++i)
            if (roots_[i] == root) open[i] = problem_.lines[i].channels - onboard.carried[i];
        for (std::size_t m = 0; m < problem_.keep.size(); ++m)
            if (component_of(*problem_.modules[m].part, problem_, roots_) == root)
                open[problem_.lines.size() + m] = problem_.keep[m];
        return open;
    }

    /// `excess`: the least of all components together.
    void join(const Spread& onboard, std::vector<ComponentPaths>& paths,
              const std::vector<std::vector<int>>& opens, const std::vector<std::int64_t>& least,
              std::int64_t excess, MixFront& front) {
        const std::int64_t limit = !guide_              ? ComponentPaths::no_limit
                                   : guide_->least_only ? excess
                                                        : guide_->limit;
        std::vector<Joint> joints(1);
        joints.front().sums = sums_of_use(problem_.controller, onboard, problem_);
        joints.front().kinds = problem_.controller.kinds;
        joints.front().excess = excess;
        for (std::size_t i = 0; i < paths.size(); ++i) {
            const auto& labels = paths[i].front(opens[i], limit - excess + least[i]);
            joints = with_component(joints, labels, least[i], limit);
        }
        for (Joint& joint : joints) {
            MixMember member{joint.sums, joint.kinds, {}, joint.shape, joint.excess};
            if (!problem_.controller.part->groups.empty())
                member.uses.push_back({problem_.controller.part, onboard.carried, onboard.extra,
                                       onboard.conditional});
            for (std::size_t i = 0; i < joint.picks.size(); ++i)
                paths[i].collect(joint.picks[i], member.uses);
            insert_unbeaten(front.members, std::move(member), problem_.article_cost);
        }
    }

    /// `least`: what the component counts in the joints' excess until it is chosen.
    std::vector<Joint> with_component(const std::vector<Joint>& before,
                                      const std::vector<PathLabel>& labels, std::int64_t least,
                                      std::int64_t limit) {
        std::vector<Joint> result;
        for (const Joint& joint : before)
            for (std::size_t i = 0; i < labels.size(); ++i) {
                if (work_.exhausted() && !result.empty()) {
                    proven_ = false;
                    return result;
                }
                ++work_.counts.mix_labels;
                Joint next = joint;
                next.excess += labels[i].excess - least;
                if (next.excess > limit) {
                    complete_ = false;
                    continue;
                }
                next.sums += labels[i].sums;
                next.kinds |= labels[i].kinds;
                next.shape += labels[i].shape;
                next.picks.push_back(static_cast<int>(i));
                insert_unbeaten(result, std::move(next), problem_.article_cost);
            }
        return result;
    }

    static void note(const std::vector<ComponentPaths>& paths, MixFront& front) {
        for (const ComponentPaths& each : paths) {
            front.proven = front.proven && each.proven();
            front.complete = front.complete && each.complete();
        }
    }

    const MixProblem& problem_;
    const MixGuide* guide_;
    const std::vector<int>& roots_;
    Work& work_;
    bool complete_ = true, proven_ = true;
};

std::int64_t price_of_carried(const Spread& spread, const MixGuide* guide) {
    std::int64_t sum = 0;
    for (std::size_t i = 0; guide && i < spread.carried.size(); ++i)
        sum += guide->channels[i] * spread.carried[i];
    return sum;
}

} // namespace

MixFront mix_front(const MixProblem& problem, Work& work, const MixGuide* guide) {
    std::vector<int> demand;
    for (const MixLine& line : problem.lines) demand.push_back(line.channels);
    const std::vector<int> roots = mix_components(problem);
    const auto onboards = spreads(*problem.controller.part, problem, demand, false);
    std::int64_t most = 0;
    for (const Spread& onboard : onboards) most = std::max(most, price_of_carried(onboard, guide));
    MixFront front;
    SpreadFront search(problem, guide, roots, work);
    for (const Spread& onboard : onboards)
        search.add(onboard, most - price_of_carried(onboard, guide), front);
    return front;
}

} // namespace backplate
