#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/pricing/mix/exhaustive_mix.h"

using namespace backplate;

// A group of four that serves either DI or DO, three of each asked: one module cannot mix, two can.
TEST_CASE("a group selectable as a whole serves one signal") {
    Sample sample;
    Part part;
    part.key = "SET4";
    part.groups = *parse_groups("DI|DO*4@2+one_signal");
    sample.parts.push_back(part);
    for (const char* signal : {"DI", "DO"}) {
        MixLine line;
        line.signal = signal;
        line.channels = 3;
        sample.problem.lines.push_back(line);
        sample.problem.extra.push_back({});
    }
    Part bare;
    sample.parts.push_back(bare);
    sample.problem.controller.part = &sample.parts.back();
    sample.problem.controller.channel_current = sample.problem.controller.channel_heat = {0, 0};
    MixModule module;
    module.part = &sample.parts.front();
    module.kinds = 1;
    module.sums[MixSums::cost] = 10;
    module.channel_current = module.channel_heat = {0, 0};
    sample.problem.modules.push_back(module);
    Work work;
    const MixFront front = mix_front(sample.problem, work);
    REQUIRE(front.members.size() == 1);
    REQUIRE(front.members[0].uses.size() == 2);
    for (const ModuleUse& use : front.members[0].uses) CHECK(use.carried[0] * use.carried[1] == 0);
    sample.parts.front().groups = *parse_groups("DI|DO*4@2");
    sample.problem.lines[0].channels = sample.problem.lines[1].channels = 2;
    CHECK(mix_front(sample.problem, work).members.at(0).uses.size() == 1);
}

TEST_CASE("kept modules are in every choice, and used where they serve") {
    Draws draws(19);
    int judged = 0;
    for (int i = 0; i < 200; ++i) {
        Sample sample;
        random_sample(draws, sample);
        Work work;
        const MixFront free = mix_front(sample.problem, work);
        const auto kept = static_cast<std::size_t>(
            draws.between(0, static_cast<int>(sample.problem.modules.size()) - 1));
        const int pieces = draws.between(1, 3);
        sample.problem.keep.assign(sample.problem.modules.size(), 0);
        sample.problem.keep[kept] = pieces;
        const MixFront front = mix_front(sample.problem, work);
        CHECK(front.members.empty() == free.members.empty());
        for (const MixMember& member : front.members) {
            check_cover(sample, member);
            const Part* part = sample.problem.modules[kept].part;
            CHECK(std::count_if(member.uses.begin(), member.uses.end(),
                                [&](const ModuleUse& use) { return use.part == part; }) >= pieces);
            ++judged;
        }
        if (!front.members.empty()) CHECK(least_cost(front) >= least_cost(free));
        // A member of the free front that has as many already is still there.
        for (const MixMember& member : free.members) {
            const auto has =
                std::count_if(member.uses.begin(), member.uses.end(), [&](const ModuleUse& use) {
                    return use.part == sample.problem.modules[kept].part;
                });
            if (has >= pieces) CHECK(least_cost(front) <= member.sums[MixSums::cost]);
        }
    }
    CHECK(judged >= 200);
}
