#include "pricing/mix/component_paths.h"

#include <algorithm>
#include <numeric>

#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

constexpr int any_line = -1;

int channels_open(const std::vector<int>& open) {
    return std::accumulate(open.begin(), open.end(), 0);
}

} // namespace

MixSums sums_of_use(const MixModule& module, const Spread& spread, const MixProblem& problem) {
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

std::size_t ComponentPaths::Hash::operator()(const std::vector<int>& open) const {
    std::uint64_t hash = 1469598103934665603U;
    for (const int each : open) {
        hash ^= static_cast<std::uint32_t>(each);
        hash *= 1099511628211U;
    }
    return static_cast<std::size_t>(hash ^ (hash >> 29));
}

ComponentPaths::ComponentPaths(const MixProblem& problem, const MixGuide* guide, Work& work)
    : problem_(problem), guide_(guide), work_(work) {
    for (const MixModule& module : problem.modules) modules_.push_back(case_of(module));
}

ComponentPaths::ModuleCase ComponentPaths::case_of(const MixModule& module) const {
    ModuleCase own;
    bool one = true;
    for (const ChannelGroup& group : module.part->groups) {
        one = one && group.condition.empty();
        for (std::size_t i = 0; i < problem_.lines.size(); ++i) {
            const int channels = accepts(group, problem_.lines[i]);
            if (channels == 0) continue;
            one = one && (own.line < 0 || own.line == static_cast<int>(i));
            own.line = static_cast<int>(i);
            own.channels += channels;
        }
    }
    if (!one) own.line = -1;
    own.groups = group_facts(*module.part, problem_);
    if (!guide_) return own;
    own.own = at_rates(module.sums, guide_->rate);
    for (std::size_t i = 0; i < problem_.lines.size(); ++i) {
        MixSums carried, extra;
        carried[MixSums::current] = module.channel_current[i];
        carried[MixSums::heat] = module.channel_heat[i];
        extra[MixSums::terminals] = problem_.extra[i].terminals;
        extra[MixSums::wires] = problem_.extra[i].wires;
        extra[MixSums::tested] = problem_.extra[i].tested;
        own.carried.push_back(at_rates(carried, guide_->rate) - guide_->channels[i]);
        own.extra.push_back(at_rates(extra, guide_->rate));
    }
    return own;
}

std::int64_t ComponentPaths::excess_of(const ModuleCase& module, const Spread& spread) const {
    std::int64_t excess = module.own;
    for (std::size_t i = 0; i < module.carried.size(); ++i)
        excess += module.carried[i] * spread.carried[i] + module.extra[i] * spread.extra[i];
    return excess;
}

std::optional<std::int64_t> ComponentPaths::least_excess(const std::vector<int>& open,
                                                         std::int64_t limit) {
    constexpr std::int64_t first_parts = 64;
    std::int64_t worth = 0;
    for (std::size_t i = 0; guide_ && i < guide_->channels.size(); ++i)
        worth += guide_->channels[i] * open[i];
    for (std::int64_t within = worth / first_parts + 1;; within *= 2) {
        within = std::min(within, limit);
        if (reach(open, within, true)) break;
        if (within >= limit || complete_) return std::nullopt;
    }
    for (const State& state : states_)
        if (state.expanded && channels_open(state.open) == 0) return state.excess;
    return std::nullopt;
}

const std::vector<PathLabel>& ComponentPaths::front(const std::vector<int>& open,
                                                    std::int64_t limit) {
    reach(open, limit, false);
    make_labels(limit);
    return states_.front().labels;
}

/// Expands states from the least excess on; true where the end is among them. `first_end`: no
/// further than the end.
bool ComponentPaths::reach(const std::vector<int>& open, std::int64_t limit, bool first_end) {
    complete_ = true;
    states_.clear();
    index_.clear();
    heap_.clear();
    states_[static_cast<std::size_t>(state_of(open))].excess = 0;
    heap_.emplace_back(0, 0);
    bool ended = false;
    while (!heap_.empty()) {
        std::pop_heap(heap_.begin(), heap_.end(), std::greater<>());
        const auto [excess, at] = heap_.back();
        heap_.pop_back();
        State& state = states_[static_cast<std::size_t>(at)];
        if (state.expanded) continue;
        state.expanded = true;
        if (channels_open(state.open) == 0) {
            ended = true;
            if (first_end) break;
            continue;
        }
        expand(at, limit);
    }
    return ended;
}

int ComponentPaths::state_of(const std::vector<int>& open) {
    const auto [found, added] = index_.emplace(open, static_cast<int>(states_.size()));
    if (added) {
        states_.emplace_back();
        states_.back().open = open;
    }
    return found->second;
}

/// Kept modules come first, then those that the first open line asks for.
void ComponentPaths::expand(int state, std::int64_t limit) {
    work_.check_stop();
    const std::vector<int>& open = states_[static_cast<std::size_t>(state)].open;
    const bool narrow = work_.exhausted();
    if (narrow) proven_ = false;
    const auto last =
        open.rend() - std::find_if(open.rbegin(), open.rend(), [](int n) { return n > 0; }) - 1;
    const auto lines = static_cast<std::ptrdiff_t>(problem_.lines.size());
    if (last >= lines) {
        try_module(state, static_cast<int>(last - lines), any_line, limit);
    } else {
        const auto line =
            std::find_if(open.begin(), open.end(), [](int n) { return n > 0; }) - open.begin();
        for (std::size_t m = 0; m < problem_.modules.size(); ++m)
            try_module(state, static_cast<int>(m), static_cast<int>(line), limit);
    }
    State& done = states_[static_cast<std::size_t>(state)];
    if (narrow) keep_least(done.steps);
    for (const Step& step : done.steps) {
        State& next = states_[static_cast<std::size_t>(step.next)];
        const std::int64_t excess = done.excess + step.excess;
        if (next.expanded || excess >= next.excess) continue;
        next.excess = excess;
        heap_.emplace_back(excess, step.next);
        std::push_heap(heap_.begin(), heap_.end(), std::greater<>());
    }
}

void ComponentPaths::try_module(int state, int module, int line, std::int64_t limit) {
    const ModuleCase& own = modules_[static_cast<std::size_t>(module)];
    if (own.line >= 0) {
        if (line == any_line || line == own.line) try_one_line(state, module, limit);
        return;
    }
    const std::vector<int>& open = states_[static_cast<std::size_t>(state)].open;
    const std::int64_t left = limit - states_[static_cast<std::size_t>(state)].excess;
    std::optional<LeastWorth> worth;
    if (guide_) worth = LeastWorth{&guide_->channels, own.own - left};
    SpreadSearch search(own.groups, problem_, open, work_.exhausted(), worth ? &*worth : nullptr);
    for (Spread& spread : search.run()) {
        if (line != any_line && spread.carried[static_cast<std::size_t>(line)] == 0) continue;
        const std::int64_t excess = guide_ ? excess_of(own, spread) : 0;
        if (excess <= left)
            add_step(state, module, std::move(spread), excess);
        else
            complete_ = false;
    }
    complete_ = complete_ && !search.left_out();
}

void ComponentPaths::try_one_line(int state, int module, std::int64_t limit) {
    const ModuleCase& own = modules_[static_cast<std::size_t>(module)];
    const State& from = states_[static_cast<std::size_t>(state)];
    const auto line = static_cast<std::size_t>(own.line);
    const int carried = std::min(from.open[line], own.channels);
    const int extra = own.channels - carried;
    const std::int64_t excess =
        guide_ ? own.own + own.carried[line] * carried + own.extra[line] * extra : 0;
    if (from.excess + excess > limit) {
        complete_ = false;
        return;
    }
    const std::vector<int> none(problem_.lines.size(), 0);
    Spread spread{none, none, none};
    spread.carried[line] = carried;
    spread.extra[line] = extra;
    add_step(state, module, std::move(spread), excess);
}

void ComponentPaths::add_step(int state, int module, Spread spread, std::int64_t excess) {
    ++work_.counts.mix_labels;
    std::vector<int> left = states_[static_cast<std::size_t>(state)].open;
    for (std::size_t i = 0; i < spread.carried.size(); ++i) left[i] -= spread.carried[i];
    const std::size_t kept = problem_.lines.size() + static_cast<std::size_t>(module);
    if (kept < left.size() && left[kept] > 0) --left[kept];
    const int next = state_of(left);
    states_[static_cast<std::size_t>(state)].steps.push_back(
        {module, next, std::move(spread), excess});
}

/// The use of the least excess, then of the least cost a channel.
void ComponentPaths::keep_least(std::vector<Step>& steps) const {
    if (steps.size() < 2) return;
    const auto dearer = [&](const Step& a, const Step& b) {
        if (a.excess != b.excess) return a.excess > b.excess;
        const auto cost = [&](const Step& step) {
            return problem_.modules[static_cast<std::size_t>(step.module)].sums[MixSums::cost];
        };
        return cost(a) * channels_open(b.spread.carried) >
               cost(b) * channels_open(a.spread.carried);
    };
    std::size_t best = 0;
    for (std::size_t i = 1; i < steps.size(); ++i)
        if (dearer(steps[best], steps[i])) best = i;
    Step keep = std::move(steps[best]);
    steps.clear();
    steps.push_back(std::move(keep));
}

MixSums ComponentPaths::sums_of_step(const Step& step) const {
    return sums_of_use(problem_.modules[static_cast<std::size_t>(step.module)], step.spread,
                       problem_);
}

/// Expanded states, the fewest open channels first: every step leads to one before.
std::vector<std::size_t> ComponentPaths::by_channels_open() const {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < states_.size(); ++i)
        if (states_[i].expanded) order.push_back(i);
    std::vector<int> open;
    for (const State& state : states_) open.push_back(channels_open(state.open));
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return open[a] < open[b]; });
    return order;
}

void ComponentPaths::make_labels(std::int64_t limit) {
    for (const std::size_t at : by_channels_open()) {
        State& state = states_[at];
        if (channels_open(state.open) == 0) {
            state.to_go = 0;
            state.labels.emplace_back();
            continue;
        }
        for (const Step& step : state.steps)
            state.to_go = std::min(
                state.to_go, step.excess + states_[static_cast<std::size_t>(step.next)].to_go);
        if (state.to_go >= no_limit) continue;
        if (state.excess + state.to_go > limit) {
            complete_ = false;
            continue;
        }
        for (std::size_t step = 0; step < state.steps.size(); ++step) extend(state, step, limit);
    }
}

void ComponentPaths::extend(State& state, std::size_t at, std::int64_t limit) {
    const Step& step = state.steps[at];
    const MixModule& module = problem_.modules[static_cast<std::size_t>(step.module)];
    const MixSums own = sums_of_step(step);
    const std::vector<PathLabel>& tails = states_[static_cast<std::size_t>(step.next)].labels;
    for (std::size_t i = 0; i < tails.size(); ++i) {
        if (state.excess + step.excess + tails[i].excess > limit) {
            complete_ = false;
            continue;
        }
        if (work_.exhausted() && !state.labels.empty()) {
            proven_ = false;
            return;
        }
        ++work_.counts.mix_labels;
        PathLabel label{own,
                        module.kinds | tails[i].kinds,
                        module.shape + tails[i].shape,
                        step.excess + tails[i].excess,
                        static_cast<int>(at),
                        static_cast<int>(i)};
        label.sums += tails[i].sums;
        insert_unbeaten(state.labels, std::move(label), problem_.article_cost);
    }
}

void ComponentPaths::collect(int label, std::vector<ModuleUse>& uses) const {
    for (std::size_t state = 0;;) {
        const PathLabel& at = states_[state].labels[static_cast<std::size_t>(label)];
        if (at.step < 0) return;
        const Step& step = states_[state].steps[static_cast<std::size_t>(at.step)];
        uses.push_back({problem_.modules[static_cast<std::size_t>(step.module)].part,
                        step.spread.carried, step.spread.extra, step.spread.conditional});
        label = at.next_label;
        state = static_cast<std::size_t>(step.next);
    }
}

} // namespace backplate
