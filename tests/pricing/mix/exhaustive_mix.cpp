#include "tests/pricing/mix/exhaustive_mix.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

constexpr std::array<const char*, 4> signals{"DI", "DO", "AI_MA", "RTD"};

ChannelGroup random_group(Draws& draws, std::size_t lines) {
    ChannelGroup group;
    group.channels = draws.between(1, 4);
    const int first = draws.between(0, static_cast<int>(lines) - 1);
    group.signals = {signals[static_cast<std::size_t>(first)]};
    if (draws.chance(30)) {
        const int second = draws.between(0, static_cast<int>(lines) - 1);
        if (second != first) group.signals.push_back(signals[static_cast<std::size_t>(second)]);
    }
    group.channel_a = 2;
    if (draws.chance(40)) group.common_a = draws.between(2, 6) * 0.5;
    group.one_signal = group.signals.size() > 1 && draws.chance(50);
    return group;
}

MixModule random_module(Draws& draws, Sample& sample, int groups, int bit) {
    Part part;
    part.key = "M" + std::to_string(bit);
    part.kind = "module";
    for (int i = 0; i < groups; ++i)
        part.groups.push_back(random_group(draws, sample.problem.lines.size()));
    sample.parts.push_back(part);
    MixModule module;
    module.part = &sample.parts.back();
    module.kinds = std::uint64_t{1} << bit;
    module.sums[MixSums::cost] = draws.between(5, 12) * (groups + 1);
    module.sums[MixSums::width] = draws.between(1, 3);
    module.sums[MixSums::heat] = draws.between(1, 3);
    module.sums[MixSums::current] = draws.between(1, 3);
    module.sums[MixSums::modules] = 1;
    module.sums[MixSums::places] = draws.between(1, 2);
    module.sums[MixSums::bus] = draws.between(1, 4);
    module.channel_current.assign(sample.problem.lines.size(), 0);
    module.channel_heat.assign(sample.problem.lines.size(), 0);
    return module;
}

/// Tenths of an ampere that a channel of the line takes of a group's common.
int tenths_of(const MixLine& line) {
    return line.switched ? static_cast<int>(line.amps * 10 + 0.5) : 0;
}

constexpr std::size_t not_set = static_cast<std::size_t>(-1);

/// A group that is selectable as a whole serves only the line it was set to (lines here differ in
/// their signals).
bool serves(const ChannelGroup& group, std::size_t set, std::size_t line) {
    return !group.one_signal || set == not_set || set == line;
}

/// What idle channels of a group could still serve of its dearest line.
int idle_channels(const ChannelGroup& group, const MixLine& line, int carried, int tenths_used) {
    const int idle = group.channels - carried;
    if (!group.common_a || tenths_of(line) == 0) return idle;
    const int left = static_cast<int>(*group.common_a * 10 + 0.5) - tenths_used;
    return std::min(idle, left / tenths_of(line));
}

bool could_take_more(const Sample& sample, const ChannelGroup& group, const Partial& at,
                     int carried, int tenths_used, std::size_t set) {
    if (carried == group.channels) return false;
    for (std::size_t i = 0; i < at.open.size(); ++i) {
        const MixLine& line = sample.problem.lines[i];
        if (at.open[i] == 0 || accepts(group, line) == 0 || !serves(group, set, i)) continue;
        const int limit = group.common_a ? static_cast<int>(*group.common_a * 10 + 0.5) : 1000000;
        if (tenths_used + tenths_of(line) <= limit) return true;
    }
    return false;
}

void add_idle(const Sample& sample, const ChannelGroup& group, Partial& at, int carried,
              int tenths_used, std::size_t set) {
    const auto& lines = sample.problem.lines;
    std::size_t dearest = lines.size();
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (accepts(group, lines[i]) > 0 && serves(group, set, i)) dearest = i;
    if (dearest == lines.size()) return;
    const int idle = idle_channels(group, lines[dearest], carried, tenths_used);
    at.sums[MixSums::terminals] += idle * sample.problem.extra[dearest].terminals;
    at.sums[MixSums::wires] += idle * sample.problem.extra[dearest].wires;
    at.sums[MixSums::tested] += idle * sample.problem.extra[dearest].tested;
}

/// Every way to give a group's channels to the lines.
void every_carry(const Sample& sample, const ChannelGroup& group, Fill fill, std::size_t line,
                 Partial at, int carried, int tenths_used, std::vector<Partial>& out,
                 std::size_t set = not_set) {
    const auto& lines = sample.problem.lines;
    if (line == lines.size()) {
        if (fill == Fill::maximal && could_take_more(sample, group, at, carried, tenths_used, set))
            return;
        add_idle(sample, group, at, carried, tenths_used, set);
        out.push_back(at);
        return;
    }
    const int most =
        serves(group, set, line) ? std::min(accepts(group, lines[line]), at.open[line]) : 0;
    for (int take = 0; take <= most && carried + take <= group.channels; ++take) {
        const int used = tenths_used + take * tenths_of(lines[line]);
        if (group.common_a && used > static_cast<int>(*group.common_a * 10 + 0.5)) break;
        Partial next = at;
        next.open[line] -= take;
        every_carry(sample, group, fill, line + 1, next, carried + take, used, out,
                    take > 0 ? line : set);
    }
}

std::vector<Partial> every_use(const Sample& sample, const MixModule& module, Fill fill,
                               const Partial& from) {
    Partial start = from;
    start.sums += module.sums;
    start.kinds |= module.kinds;
    std::vector<Partial> ways{start};
    for (const ChannelGroup& group : module.part->groups) {
        std::vector<Partial> next;
        for (const Partial& way : ways) every_carry(sample, group, fill, 0, way, 0, 0, next);
        ways = std::move(next);
    }
    return ways;
}

} // namespace

void random_sample(Draws& draws, Sample& sample) {
    const int lines = draws.between(2, 4);
    for (int i = 0; i < lines; ++i) {
        MixLine line;
        line.signal = signals[static_cast<std::size_t>(i)];
        line.channels = draws.between(1, 4);
        line.switched = draws.chance(40);
        line.amps = line.switched ? draws.between(1, 4) * 0.5 : 0;
        sample.problem.lines.push_back(line);
        // The same order of the lines in every burden: a dearer line is dearer in all of them.
        sample.problem.extra.push_back({i * 2, i, i * 3});
    }
    sample.problem.controller = random_module(draws, sample, draws.chance(50) ? 1 : 0, 0);
    const int modules = draws.between(2, 5);
    for (int i = 0; i < modules; ++i)
        sample.problem.modules.push_back(
            random_module(draws, sample, draws.chance(30) ? 2 : 1, i + 1));
}

void check_cover(const Sample& sample, const MixMember& member) {
    std::vector<int> carried(sample.problem.lines.size(), 0);
    for (const ModuleUse& use : member.uses)
        for (std::size_t i = 0; i < carried.size(); ++i) carried[i] += use.carried[i];
    for (std::size_t i = 0; i < carried.size(); ++i)
        CHECK(carried[i] == sample.problem.lines[i].channels);
}

std::int64_t least_cost(const MixFront& front) {
    std::int64_t least = -1;
    for (const MixMember& member : front.members)
        if (least < 0 || member.sums[MixSums::cost] < least) least = member.sums[MixSums::cost];
    return least;
}

std::vector<Partial> every_cover(const Sample& sample, Fill fill, std::size_t& judged) {
    Partial nothing;
    for (const MixLine& line : sample.problem.lines) nothing.open.push_back(line.channels);
    auto fresh = every_use(sample, sample.problem.controller, fill, nothing);
    std::set<Partial> all(fresh.begin(), fresh.end());
    while (!fresh.empty()) {
        std::vector<Partial> next;
        for (const Partial& from : fresh)
            for (const MixModule& module : sample.problem.modules)
                for (const Partial& way : every_use(sample, module, fill, from))
                    if (way.open != from.open && all.insert(way).second) next.push_back(way);
        fresh = std::move(next);
    }
    judged += all.size();
    std::vector<Partial> covers;
    for (const Partial& partial : all)
        if (std::all_of(partial.open.begin(), partial.open.end(), [](int n) { return n == 0; }))
            covers.push_back(partial);
    return covers;
}

} // namespace backplate
