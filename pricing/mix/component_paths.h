#pragma once

#include <deque>
#include <limits>
#include <unordered_map>
#include <vector>

#include "pricing/mix/distribute.h"

namespace backplate {

/// A partial choice: one module use, then the label of the state it leads to.
struct PathLabel {
    MixSums sums;
    std::uint64_t kinds = 0, shape = 0;
    std::int64_t excess = 0;
    int step = -1; ///< -1: nothing left to carry
    int next_label = -1;
};

/// Every way to carry the open channels of one component of lines within a limit of excess. A state
/// is the channels still open by line, then the kept modules still to be taken; steps lead from the
/// state of the least excess on, the first open line first.
class ComponentPaths {
public:
    static constexpr std::int64_t no_limit = std::numeric_limits<std::int64_t>::max() / 4;

    /// `rate` and `prices`: of the guide; empty prices: every excess is 0.
    ComponentPaths(const MixProblem& problem, const MixGuide* guide, Work& work);

    /// The least excess of a choice that carries `open`; nothing where none is within the limit.
    std::optional<std::int64_t> least_excess(const std::vector<int>& open, std::int64_t limit);
    /// The choices within the limit that no other one beats.
    const std::vector<PathLabel>& front(const std::vector<int>& open, std::int64_t limit);
    /// Adds the uses of a label of front().
    void collect(int label, std::vector<ModuleUse>& uses) const;

    bool proven() const { return proven_; }
    bool complete() const { return complete_; } ///< no limit left anything out

private:
    struct Step {
        int module = -1, next = -1;
        Spread spread;
        std::int64_t excess = 0;
    };
    struct State {
        std::vector<int> open;
        std::int64_t excess = no_limit; ///< least from the root
        std::int64_t to_go = no_limit;  ///< least to the end
        bool expanded = false;
        std::vector<Step> steps;
        std::vector<PathLabel> labels;
    };
    struct Hash {
        std::size_t operator()(const std::vector<int>& open) const;
    };
    /// What a module costs at the rates, and what it carries where all its groups serve one line.
    struct ModuleCase {
        int line = -1, channels = 0;              ///< line -1: several lines
        std::int64_t own = 0;                     ///< of the module alone
        std::vector<std::int64_t> carried, extra; ///< of a channel of the line, beside its price
        std::vector<GroupFacts> groups;
    };

    bool reach(const std::vector<int>& open, std::int64_t limit, bool first_end);
    int state_of(const std::vector<int>& open);
    void expand(int state, std::int64_t limit);
    void try_module(int state, int module, int line, std::int64_t limit);
    void try_one_line(int state, int module, std::int64_t limit);
    void add_step(int state, int module, Spread spread, std::int64_t excess);
    ModuleCase case_of(const MixModule& module) const;
    std::int64_t excess_of(const ModuleCase& module, const Spread& spread) const;
    void keep_least(std::vector<Step>& steps) const;
    void make_labels(std::int64_t limit);
    void extend(State& state, std::size_t step, std::int64_t limit);
    MixSums sums_of_step(const Step& step) const;
    std::vector<std::size_t> by_channels_open() const;

    const MixProblem& problem_;
    const MixGuide* guide_;
    Work& work_;
    std::vector<ModuleCase> modules_; ///< by module
    std::deque<State> states_;        ///< stay where they are
    std::unordered_map<std::vector<int>, int, Hash> index_;
    std::vector<std::pair<std::int64_t, int>> heap_;
    bool proven_ = true, complete_ = true;
};

/// Sums of a use: the module's own and what its channels bring.
MixSums sums_of_use(const MixModule& module, const Spread& spread, const MixProblem& problem);

/// No other item of its shape is no worse: adds the new one and takes out those it beats.
template <class Item>
void insert_unbeaten(std::vector<Item>& front, Item item,
                     std::optional<std::int64_t> article_cost) {
    for (const Item& other : front)
        if (other.shape == item.shape &&
            no_worse(other.sums, other.kinds, item.sums, item.kinds, article_cost))
            return;
    std::erase_if(front, [&](const Item& other) {
        return other.shape == item.shape &&
               no_worse(item.sums, item.kinds, other.sums, other.kinds, article_cost);
    });
    front.push_back(std::move(item));
}

} // namespace backplate
