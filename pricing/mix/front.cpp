#include "pricing/mix/front.h"

#include <algorithm>
#include <bit>
#include <map>
#include <numeric>

#include "pricing/mix/accepts.h"
#include "pricing/mix/distribute.h"

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

namespace {

/// A partial choice: one module use, then the label of the state it leads to.
struct Label {
    MixSums sums;
    std::uint64_t kinds = 0;
    int module = -1; ///< -1: nothing left to carry
    Spread spread;
    int next_state = -1, next_label = -1;
};

template <class Item>
bool beaten(const std::vector<Item>& front, const MixSums& sums, std::uint64_t kinds,
            std::optional<std::int64_t> article_cost) {
    return std::any_of(front.begin(), front.end(), [&](const Item& other) {
        return no_worse(other.sums, other.kinds, sums, kinds, article_cost);
    });
}

template <class Item>
void insert(std::vector<Item>& front, Item item, std::optional<std::int64_t> article_cost) {
    if (beaten(front, item.sums, item.kinds, article_cost)) return;
    std::erase_if(front, [&](const Item& other) {
        return no_worse(item.sums, item.kinds, other.sums, other.kinds, article_cost);
    });
    front.push_back(std::move(item));
}

MixSums sums_of(const MixModule& module, const Spread& spread, const MixProblem& problem) {
    MixSums sums = module.sums;
    for (std::size_t i = 0; i < spread.extra.size(); ++i) {
        sums[MixSums::current] += spread.carried[i] * module.channel_current[i];
        sums[MixSums::heat] += spread.carried[i] * module.channel_heat[i];
        sums[MixSums::terminals] += spread.extra[i] * problem.extra[i].terminals;
        sums[MixSums::wires] += spread.extra[i] * problem.extra[i].wires;
        sums[MixSums::tested] += spread.extra[i] * problem.extra[i].tested;
    }
    return sums;
}

/// Fronts of all states of one component, made when first asked for. A state: channels open by
/// line, then kept modules still to be taken.
class ComponentSearch {
public:
    ComponentSearch(const MixProblem& problem, Work& work) : problem_(problem), work_(work) {}

    int state_of(const std::vector<int>& open) {
        const auto [found, added] = index_.emplace(open, static_cast<int>(fronts_.size()));
        if (added) {
            fronts_.emplace_back();
            build(found->second, open);
        }
        return found->second;
    }
    const std::vector<Label>& front(int state) const {
        return fronts_[static_cast<std::size_t>(state)];
    }
    bool proven() const { return proven_; }

    void collect(int state, int label, std::vector<ModuleUse>& uses) const {
        for (;;) {
            const Label& at = front(state)[static_cast<std::size_t>(label)];
            if (at.module < 0) return;
            const auto module = static_cast<std::size_t>(at.module);
            uses.push_back({problem_.modules[module].part, at.spread.carried, at.spread.extra,
                            at.spread.conditional});
            state = at.next_state;
            label = at.next_label;
        }
    }

private:
    /// Kept modules come first, then those that the first open line asks for.
    void build(int state, const std::vector<int>& open) {
        work_.check_stop();
        const auto first = std::find_if(open.rbegin(), open.rend(), [](int n) { return n > 0; });
        std::vector<Label> labels;
        if (first == open.rend()) {
            labels.emplace_back();
        } else if (const auto last = static_cast<std::size_t>(open.rend() - first - 1);
                   last >= problem_.lines.size()) {
            try_module(static_cast<int>(last - problem_.lines.size()), any_line, open, labels);
        } else {
            const auto line = static_cast<std::size_t>(
                std::find_if(open.begin(), open.end(), [](int n) { return n > 0; }) - open.begin());
            for (std::size_t m = 0; m < problem_.modules.size(); ++m)
                try_module(static_cast<int>(m), line, open, labels);
        }
        fronts_[static_cast<std::size_t>(state)] = std::move(labels);
    }

    void try_module(int module, std::size_t line, const std::vector<int>& open,
                    std::vector<Label>& labels) {
        const MixModule& candidate = problem_.modules[static_cast<std::size_t>(module)];
        const bool narrow = work_.exhausted();
        if (narrow) proven_ = false;
        for (const Spread& spread : spreads(*candidate.part, problem_, open, narrow)) {
            if (line != any_line && spread.carried[line] == 0) continue;
            std::vector<int> left = open;
            for (std::size_t i = 0; i < spread.carried.size(); ++i) left[i] -= spread.carried[i];
            if (line == any_line) --left[problem_.lines.size() + static_cast<std::size_t>(module)];
            const int next = state_of(left);
            extend(module, spread, next, labels);
            if (narrow) keep_cheapest(labels);
        }
    }

    void extend(int module, const Spread& spread, int next, std::vector<Label>& labels) {
        const MixModule& candidate = problem_.modules[static_cast<std::size_t>(module)];
        const MixSums own = sums_of(candidate, spread, problem_);
        const std::vector<Label>& tails = front(next);
        for (std::size_t i = 0; i < tails.size(); ++i) {
            ++work_.counts.mix_labels;
            MixSums sums = own;
            sums += tails[i].sums;
            const std::uint64_t kinds = candidate.kinds | tails[i].kinds;
            if (beaten(labels, sums, kinds, problem_.article_cost)) continue;
            insert(labels, Label{sums, kinds, module, spread, next, static_cast<int>(i)},
                   problem_.article_cost);
        }
    }

    static void keep_cheapest(std::vector<Label>& labels) {
        if (labels.size() < 2) return;
        auto best =
            std::min_element(labels.begin(), labels.end(), [](const auto& a, const auto& b) {
                return a.sums[MixSums::cost] < b.sums[MixSums::cost];
            });
        Label keep = std::move(*best);
        labels.clear();
        labels.push_back(std::move(keep));
    }

    static constexpr std::size_t any_line = static_cast<std::size_t>(-1);

    const MixProblem& problem_;
    Work& work_;
    std::map<std::vector<int>, int> index_;
    std::vector<std::vector<Label>> fronts_;
    bool proven_ = true;
};

/// Lines linked by a module or a controller group that could carry both: component numbers.
std::vector<int> components(const MixProblem& problem) {
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
    std::uint64_t kinds = 0;
    std::vector<std::pair<int, int>> picks; ///< state and label by component
};

std::vector<Joint> add_component(const std::vector<Joint>& before, const ComponentSearch& search,
                                 int state, std::optional<std::int64_t> article_cost, Work& work) {
    std::vector<Joint> result;
    const std::vector<Label>& labels = search.front(state);
    for (const Joint& joint : before)
        for (std::size_t i = 0; i < labels.size(); ++i) {
            ++work.counts.mix_labels;
            Joint next = joint;
            next.sums += labels[i].sums;
            next.kinds |= labels[i].kinds;
            if (beaten(result, next.sums, next.kinds, article_cost)) continue;
            next.picks.emplace_back(state, static_cast<int>(i));
            insert(result, std::move(next), article_cost);
        }
    return result;
}

/// Solves the lines that `spread` (the controller's own channels) leaves open.
void solve_spread(const MixProblem& problem, const Spread& onboard,
                  std::vector<ComponentSearch>& searches, const std::vector<int>& roots, Work& work,
                  std::vector<MixMember>& members) {
    std::vector<Joint> joints{
        {sums_of(problem.controller, onboard, problem), problem.controller.kinds, {}}};
    std::size_t search = 0;
    for (std::size_t root = 0; root < roots.size(); ++root) {
        if (roots[root] != static_cast<int>(root)) continue;
        std::vector<int> open(problem.lines.size() + problem.keep.size(), 0);
        for (std::size_t i = 0; i < roots.size(); ++i)
            if (roots[i] == static_cast<int>(root))
                open[i] = problem.lines[i].channels - onboard.carried[i];
        for (std::size_t m = 0; m < problem.keep.size(); ++m)
            if (component_of(*problem.modules[m].part, problem, roots) == static_cast<int>(root))
                open[problem.lines.size() + m] = problem.keep[m];
        const int state = searches[search].state_of(open);
        joints = add_component(joints, searches[search], state, problem.article_cost, work);
        ++search;
    }
    for (const Joint& joint : joints) {
        if (beaten(members, joint.sums, joint.kinds, problem.article_cost)) continue;
        MixMember member{joint.sums, joint.kinds, {}};
        if (!problem.controller.part->groups.empty())
            member.uses.push_back(
                {problem.controller.part, onboard.carried, onboard.extra, onboard.conditional});
        for (std::size_t i = 0; i < joint.picks.size(); ++i)
            searches[i].collect(joint.picks[i].first, joint.picks[i].second, member.uses);
        insert(members, std::move(member), problem.article_cost);
    }
}

} // namespace

MixFront mix_front(const MixProblem& problem, Work& work) {
    std::vector<int> demand;
    for (const MixLine& line : problem.lines) demand.push_back(line.channels);
    const std::vector<int> roots = components(problem);
    std::vector<ComponentSearch> searches;
    for (std::size_t root = 0; root < roots.size(); ++root) {
        if (roots[root] == static_cast<int>(root)) searches.emplace_back(problem, work);
    }
    MixFront front;
    for (const Spread& onboard : spreads(*problem.controller.part, problem, demand, false))
        solve_spread(problem, onboard, searches, roots, work, front.members);
    for (const ComponentSearch& search : searches) front.proven = front.proven && search.proven();
    return front;
}

} // namespace backplate
