#include "pricing/mix/front.h"

#include <algorithm>
#include <array>
#include <bit>
#include <catch2/catch.hpp>
#include <iostream>
#include <numeric>
#include <set>

#include "pricing/mix/accepts.h"
#include "tests/draw_count.h"
#include "tests/pricing/mix/exhaustive_mix.h"

using namespace backplate;

namespace {

using Vector = std::pair<std::vector<std::int64_t>, std::uint64_t>;

Vector vector_of(const MixSums& sums, std::uint64_t kinds) {
    return {{sums.value.begin(), sums.value.end()}, kinds};
}

std::set<Vector> nondominated(const std::vector<Partial>& covers) {
    std::set<Vector> front;
    for (const Partial& one : covers) {
        const bool beaten = std::any_of(covers.begin(), covers.end(), [&](const Partial& other) {
            const bool same = other.sums.value == one.sums.value && other.kinds == one.kinds;
            return !same && no_worse(other.sums, other.kinds, one.sums, one.kinds);
        });
        if (!beaten) front.insert(vector_of(one.sums, one.kinds));
    }
    return front;
}

std::set<Vector> vectors_of(const std::vector<Partial>& covers) {
    std::set<Vector> result;
    for (const Partial& cover : covers) result.insert(vector_of(cover.sums, cover.kinds));
    return result;
}

std::set<Vector> vectors_of(const MixFront& front) {
    std::set<Vector> result;
    for (const MixMember& member : front.members)
        result.insert(vector_of(member.sums, member.kinds));
    return result;
}

} // namespace

namespace {

struct Compared {
    int covered = 0, different = 0;
    std::size_t members = 0, judged = 0;
};

/// Without the burden of idle channels full modules are never worse, so any filling counts.
Compared compare_with_exhaustive(std::uint64_t seed, Fill fill, int problems) {
    Draws draws(seed);
    Compared result;
    for (int i = 0; i < problems; ++i) {
        Sample sample;
        random_sample(draws, sample);
        if (fill == Fill::any)
            for (ExtraChannel& extra : sample.problem.extra) extra = {};
        Work work;
        const MixFront front = mix_front(sample.problem, work);
        const auto covers = every_cover(sample, fill, result.judged);
        const auto expected = nondominated(covers);
        CHECK(front.proven);
        CHECK(vectors_of(front).size() == front.members.size());
        CHECK(front.members.empty() == expected.empty());
        if (vectors_of(front) != expected) ++result.different;
        const auto all = vectors_of(covers);
        for (const MixMember& member : front.members) {
            check_cover(sample, member);
            CHECK(all.count(vector_of(member.sums, member.kinds)) == 1);
        }
        result.members += expected.size();
        result.covered += expected.empty() ? 0 : 1;
    }
    std::cout << "mix front: " << problems << " problems, " << result.covered << " with a cover, "
              << result.members << " members, " << result.judged << " partial choices judged, "
              << result.different << " fronts differ\n";
    return result;
}

} // namespace

TEST_CASE("front of modules equals exhaustive search over every assignment") {
    const Compared compared = compare_with_exhaustive(7, Fill::any, sampled(400));
    CHECK(compared.different == 0);
    CHECK(compared.covered >= sampled(200));
    CHECK(compared.members >= sampled(700));
}

TEST_CASE("with a burden on idle channels every member is a cover, few are passed over") {
    // The search fills the first open line first; another order may leave other channels idle.
    const Compared compared = compare_with_exhaustive(8, Fill::maximal, 400);
    CHECK(compared.different <= compared.covered / 20);
    CHECK(compared.covered >= 200);
    CHECK(compared.members >= 700);
}

// The price of a choice: its weighted sums and a fixed amount for every article.
TEST_CASE("with a price for articles the front still holds the cheapest of all covers") {
    Draws draws(17);
    std::size_t compared = 0, with = 0, without = 0;
    for (int i = 0; i < sampled(300); ++i) {
        Sample sample;
        random_sample(draws, sample);
        for (ExtraChannel& extra : sample.problem.extra) extra = {};
        Work work;
        without += mix_front(sample.problem, work).members.size();
        const std::int64_t article = draws.between(0, 30);
        sample.problem.article_cost = article;
        const MixFront front = mix_front(sample.problem, work);
        std::size_t judged = 0;
        const auto covers = every_cover(sample, Fill::any, judged);
        with += front.members.size();
        CHECK(front.members.empty() == covers.empty());
        if (covers.empty()) continue;
        std::array<std::int64_t, MixSums::size> weight{};
        for (auto& one : weight) one = draws.between(0, 3);
        weight[MixSums::cost] = 1;
        const auto price = [&](const auto& one) {
            return std::inner_product(weight.begin(), weight.end(), one.sums.value.begin(),
                                      article * std::popcount(one.kinds));
        };
        const auto least = [&](const auto& all) {
            std::int64_t best = price(all.front());
            for (const auto& one : all) best = std::min(best, price(one));
            return best;
        };
        CHECK(least(front.members) == least(covers));
        ++compared;
    }
    std::cout << "mix front: " << compared << " cheapest covers held by " << with
              << " members instead of " << without << "\n";
    CHECK(compared >= static_cast<std::size_t>(sampled(150)));
    CHECK(with < without);
}

TEST_CASE("more demand is never cheaper, one more module type never dearer") {
    Draws draws(11);
    std::size_t compared = 0;
    for (int i = 0; i < 300; ++i) {
        Sample sample;
        random_sample(draws, sample);
        Work work;
        const std::int64_t cost = least_cost(mix_front(sample.problem, work));
        MixProblem more = sample.problem;
        const auto line =
            static_cast<std::size_t>(draws.between(0, static_cast<int>(more.lines.size()) - 1));
        more.lines[line].channels += draws.between(1, 3);
        const std::int64_t cost_of_more = least_cost(mix_front(more, work));
        if (cost >= 0 && cost_of_more >= 0) CHECK(cost_of_more >= cost);
        if (cost < 0) CHECK(cost_of_more < 0);
        MixProblem fewer_types = sample.problem;
        fewer_types.modules.pop_back();
        const std::int64_t cost_of_fewer = least_cost(mix_front(fewer_types, work));
        if (cost_of_fewer >= 0) {
            REQUIRE(cost >= 0);
            CHECK(cost <= cost_of_fewer);
            ++compared;
        }
    }
    std::cout << "mix front: " << compared << " problems compared with one module type less\n";
    CHECK(compared >= 80);
}

TEST_CASE("order of the modules does not change the front") {
    Draws draws(13);
    std::size_t members = 0;
    for (int i = 0; i < 200; ++i) {
        Sample sample;
        random_sample(draws, sample);
        Work work;
        const auto front = vectors_of(mix_front(sample.problem, work));
        MixProblem turned = sample.problem;
        std::reverse(turned.modules.begin(), turned.modules.end());
        CHECK(vectors_of(mix_front(turned, work)) == front);
        members += front.size();
    }
    CHECK(members >= 400);
}

TEST_CASE("a tiny budget gives a valid cover, the same each time, and says so") {
    Draws draws(17);
    int unproven = 0;
    for (int i = 0; i < 200; ++i) {
        Sample sample;
        random_sample(draws, sample);
        Work full, first, second;
        first.budget = second.budget = 3;
        const MixFront whole = mix_front(sample.problem, full);
        const MixFront front = mix_front(sample.problem, first);
        CHECK(front.members.empty() == whole.members.empty());
        CHECK(vectors_of(mix_front(sample.problem, second)) == vectors_of(front));
        for (const MixMember& member : front.members) check_cover(sample, member);
        if (!front.members.empty()) CHECK(least_cost(front) >= least_cost(whole));
        if (!front.proven) ++unproven;
        if (vectors_of(front) != vectors_of(whole)) CHECK_FALSE(front.proven);
    }
    CHECK(unproven >= 100);
}

TEST_CASE("lines of one group share its common current") {
    Sample sample;
    Part part;
    part.key = "OUT8";
    part.kind = "module";
    ChannelGroup group;
    group.channels = 8;
    group.signals = {"DO"};
    group.channel_a = 2;
    group.common_a = 4;
    part.groups = {group};
    sample.parts.push_back(part);
    MixLine heavy, light;
    heavy.signal = light.signal = "DO";
    heavy.switched = light.switched = true;
    heavy.amps = 2;
    heavy.channels = 2;
    light.amps = 0.5;
    light.channels = 6;
    sample.problem.lines = {heavy, light};
    sample.problem.extra.resize(2);
    Part controller;
    sample.parts.push_back(controller);
    sample.problem.controller.part = &sample.parts.back();
    sample.problem.controller.channel_current = sample.problem.controller.channel_heat = {0, 0};
    MixModule module;
    module.part = &sample.parts.front();
    module.sums[MixSums::cost] = 1;
    module.channel_current = module.channel_heat = {0, 0};
    sample.problem.modules = {module};
    Work work;
    const MixFront front = mix_front(sample.problem, work);
    REQUIRE(front.members.size() == 1);
    // 2 × 2 A + 6 × 0.5 A = 7 A, one group gives 4 A (electrical-facts 5: check the group total).
    CHECK(front.members.front().sums[MixSums::cost] == 2);
    for (const ModuleUse& use : front.members.front().uses)
        CHECK(use.carried[0] * 2 + use.carried[1] * 0.5 <= 4);
}
