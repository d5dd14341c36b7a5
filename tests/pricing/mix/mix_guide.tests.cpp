#include "pricing/mix/mix_guide.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <iostream>

#include "pricing/mix/distribute.h"
#include "tests/pricing/mix/exhaustive_mix.h"

using namespace backplate;

namespace {

MixSums random_rates(Draws& draws) {
    MixSums rate;
    rate[MixSums::cost] = draws.between(1, 5) * 1'000'000;
    for (const auto sum : {MixSums::terminals, MixSums::wires, MixSums::modules, MixSums::width})
        rate[sum] = draws.chance(50) ? draws.between(0, 900'000) : 0;
    return rate;
}

Closers no_closers() { return {}; }

/// Value of a cover's modules at the rates: all but the controller's own channels.
std::int64_t modules_at(const MixSums& sums, const MixSums& onboard, const MixSums& rate) {
    return at_rates(sums, rate) - at_rates(onboard, rate);
}

/// The most that the controller's own sums may come to: what its channels bring is left out.
MixSums own_sums(const MixProblem& problem, const MixMember& member) {
    MixSums sums = problem.controller.sums;
    if (problem.controller.part->groups.empty()) return sums;
    const ModuleUse& use = member.uses.front();
    for (std::size_t i = 0; i < use.extra.size(); ++i) {
        sums[MixSums::terminals] += use.extra[i] * problem.extra[i].terminals;
        sums[MixSums::wires] += use.extra[i] * problem.extra[i].wires;
        sums[MixSums::tested] += use.extra[i] * problem.extra[i].tested;
        sums[MixSums::current] += use.carried[i] * problem.controller.channel_current[i];
        sums[MixSums::heat] += use.carried[i] * problem.controller.channel_heat[i];
    }
    return sums;
}

struct Judged {
    int members = 0, tight = 0, outside = 0, complete = 0;
};

/// Every member of the whole front costs at the rates what the bound and its excess say.
void judge(const Sample& sample, const GuidedMix& guided, const MixSums& rate, const MixRoom& room,
           Judged& judged) {
    Work work;
    MixGuide all = guided.guide;
    all.limit = std::int64_t{1} << 60;
    const MixFront front = mix_front(sample.problem, work, &all);
    const MixFront plain = mix_front(sample.problem, work);
    CHECK(front.complete);
    CHECK(front.members.size() == plain.members.size());
    for (const MixMember& member : front.members) {
        const std::int64_t cost = modules_at(member.sums, own_sums(sample.problem, member), rate);
        CHECK(member.excess >= 0);
        const bool inside =
            member.sums[MixSums::places] <= room.places && member.sums[MixSums::bus] <= room.bus;
        judged.outside += inside ? 0 : 1;
        if (!inside) continue;
        ++judged.members;
        CHECK(cost >= guided.least + member.excess);
        judged.tight += (cost - guided.least) * 10 <= cost ? 1 : 0;
    }
    for (const std::int64_t parts : {1, 2, 4, 8, 20, 60}) {
        MixGuide some = guided.guide;
        some.limit = guided.least * 2 / parts;
        const MixFront within = mix_front(sample.problem, work, &some);
        const auto expected =
            std::count_if(front.members.begin(), front.members.end(),
                          [&](const MixMember& member) { return member.excess <= some.limit; });
        CHECK(static_cast<std::ptrdiff_t>(within.members.size()) == expected);
        for (const MixMember& member : within.members) check_cover(sample, member);
        if (within.complete) CHECK(within.members.size() == front.members.size());
        judged.complete += within.complete ? 1 : 0;
    }
}

} // namespace

// Weak duality of linear programs: no choice costs less than its channels at the prices; the whole
// front is judged beside it (exhaustive in front.tests.cpp).
TEST_CASE("a guide's bound holds for every choice, and its limit leaves out no other") {
    Draws draws(71);
    Judged judged;
    int impossible = 0;
    for (int i = 0; i < 400; ++i) {
        Sample sample;
        random_sample(draws, sample);
        const MixSums rate = random_rates(draws);
        MixRoom room;
        room.places = draws.between(2, 30);
        room.bus = draws.between(50, 5000);
        const auto guided = guided_mix(sample.problem, no_closers(), rate, room);
        Work work;
        if (guided) {
            judge(sample, *guided, rate, room, judged);
            continue;
        }
        ++impossible;
        for (const MixMember& member : mix_front(sample.problem, work).members) {
            const bool inside = member.sums[MixSums::places] <= room.places &&
                                member.sums[MixSums::bus] <= room.bus;
            CHECK_FALSE(inside);
        }
    }
    std::cout << "guided mixes: " << judged.members << " choices judged, " << judged.tight
              << " within 10 % of the bound, " << judged.outside << " beyond the room, "
              << impossible << " problems without room\n";
    CHECK(judged.members >= 400);
    CHECK(judged.tight >= 40);
    CHECK(judged.complete >= 100);
    CHECK(judged.outside >= 20);
    CHECK(impossible >= 20);
}

TEST_CASE("the least of one sum is reached or lies below every choice") {
    Draws draws(73);
    int judged = 0, reached = 0;
    for (int i = 0; i < 200; ++i) {
        Sample sample;
        random_sample(draws, sample);
        Work work;
        const MixFront front = mix_front(sample.problem, work);
        if (front.members.empty()) continue;
        const std::int64_t least = least_sum(sample.problem, MixSums::width);
        std::int64_t narrowest = std::int64_t{1} << 60;
        for (const MixMember& member : front.members)
            narrowest = std::min(narrowest, member.sums[MixSums::width] -
                                                sample.problem.controller.sums[MixSums::width]);
        CHECK(least <= narrowest);
        ++judged;
        reached += least == narrowest ? 1 : 0;
    }
    CHECK(judged >= 100);
    CHECK(reached >= 10);
}
