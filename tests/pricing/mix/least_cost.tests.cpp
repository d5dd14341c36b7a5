#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <iostream>
#include <set>

#include "pricing/mix/bare_mix.h"
#include "pricing/mix/cover_lp.h"
#include "pricing/mix/hall_rows.h"
#include "tests/draw_count.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

using Sums = std::array<std::int64_t, 4>;

BareItem item(Draws& draws, const std::string& id, int dearest) {
    BareItem made;
    made.id = id;
    made.sums = {draws.between(dearest / 4, dearest), draws.between(1, 9), draws.between(1, 9),
                 draws.between(1, 9)};
    return made;
}

BareItem module_of(Draws& draws, int number, int kinds) {
    BareItem made = item(draws, "M" + std::to_string(number), 60);
    made.places = draws.between(1, 2);
    made.bus = draws.between(1, 9);
    const int groups = draws.between(1, 2);
    for (int i = 0; i < groups; ++i) {
        BareGroup group;
        group.channels = 1 << draws.between(0, 2);
        group.accepts = static_cast<std::uint64_t>(draws.between(1, (1 << kinds) - 1));
        group.one_signal = draws.chance(30);
        made.groups.push_back(group);
    }
    return made;
}

BareMix small_mix(Draws& draws) {
    BareMix mix;
    const int kinds = draws.between(1, 3);
    for (int i = 0; i < kinds; ++i) {
        mix.signals.push_back("S" + std::to_string(i));
        mix.need.push_back(draws.between(0, 5));
    }
    BareFamily family;
    for (int i = 0; i < 2; ++i) {
        BareItem controller = item(draws, "C" + std::to_string(i), 90);
        controller.places = draws.between(1, 6);
        controller.bus = draws.between(4, 30);
        controller.most_heads = draws.between(0, 1);
        controller.most_feeds = draws.between(0, 1);
        for (int groups = draws.between(0, 2); groups > 0; --groups)
            controller.groups.push_back(
                {draws.between(1, 3),
                 static_cast<std::uint64_t>(draws.between(1, (1 << kinds) - 1)), draws.chance(50)});
        family.controllers.push_back(controller);
    }
    BareItem head = item(draws, "H", 40), feed = item(draws, "F", 20);
    head.places = 3;
    head.bus = 12;
    head.most_feeds = draws.between(0, 1);
    feed.places = 1;
    feed.bus = 10;
    family.heads.push_back(head);
    family.feeds.push_back(feed);
    const int modules = draws.between(1, 3);
    for (int i = 0; i < modules; ++i) family.modules.push_back(module_of(draws, i, kinds));
    mix.families.push_back(family);
    return mix;
}

/// Cards with up to three groups of one kind each, dearer or hungrier, within tight limits.
BareMix one_kind_cards(Draws& draws) {
    constexpr int kinds = 6;
    BareMix mix;
    for (int i = 0; i < kinds; ++i) {
        mix.signals.push_back("S" + std::to_string(i));
        mix.need.push_back(draws.between(17, 40));
    }
    BareFamily family;
    BareItem controller = item(draws, "C", 9000);
    controller.places = 24;
    controller.bus = 1200;
    family.controllers.push_back(controller);
    for (int i = 0; i < 24; ++i) {
        BareItem card = item(draws, "M" + std::to_string(i), 6000);
        card.places = 1;
        card.bus = draws.between(20, 90);
        BareGroup group{1 << draws.between(1, 3), 0, true};
        for (int k = 0; k < 3; ++k)
            group.accepts |= std::uint64_t{1} << draws.between(0, kinds - 1);
        for (int count = draws.between(1, 3); count > 0; --count) card.groups.push_back(group);
        family.modules.push_back(card);
    }
    mix.families.push_back(family);
    return mix;
}

/// Can these groups meet the need: every way to give each group, or each of its channels, a kind.
bool meets(std::vector<BareGroup> groups, std::vector<std::int64_t> need) {
    while (!groups.empty() && groups.back().channels == 0) groups.pop_back();
    if (std::all_of(need.begin(), need.end(), [](std::int64_t left) { return left <= 0; }))
        return true;
    if (groups.empty()) return false;
    BareGroup& last = groups.back();
    const int taken = last.one_signal ? last.channels : 1;
    const std::uint64_t accepts = last.accepts;
    last.channels -= taken;
    for (std::size_t kind = 0; kind < need.size(); ++kind) {
        if (!(accepts >> kind & 1) || need[kind] <= 0) continue;
        std::vector<std::int64_t> less = need;
        less[kind] -= taken;
        if (meets(groups, less)) return true;
    }
    return meets(groups, need);
}

/// Every choice of a family that keeps the limits, by plain enumeration.
class EveryChoice {
public:
    explicit EveryChoice(const BareMix& mix) : mix_(mix), family_(mix.families.front()) {}

    std::vector<Sums> all() {
        for (const BareItem& controller : family_.controllers) {
            counts_.assign(family_.modules.size(), 0);
            enough_.clear();
            modules(controller, 0, controller.places + family_.heads.front().places);
        }
        return found_;
    }

private:
    /// Every count of the modules from `at` on within the places that one head leaves.
    void modules(const BareItem& controller, std::size_t at, std::int64_t places) {
        if (at == counts_.size()) return close(controller);
        for (counts_[at] = 0; places >= 0; ++counts_[at], places -= family_.modules[at].places)
            modules(controller, at + 1, places);
        counts_[at] = 0;
    }

    void close(const BareItem& controller) {
        std::vector<BareGroup> groups = controller.groups;
        std::int64_t places = 0, bus = 0;
        Sums sums = controller.sums;
        for (std::size_t i = 0; i < counts_.size(); ++i) {
            const BareItem& module = family_.modules[i];
            places += module.places * counts_[i];
            bus += module.bus * counts_[i];
            for (int k = 0; k < counts_[i]; ++k)
                groups.insert(groups.end(), module.groups.begin(), module.groups.end());
            for (std::size_t k = 0; k < sums.size(); ++k) sums[k] += module.sums[k] * counts_[i];
        }
        const BareItem &head = family_.heads.front(), &feed = family_.feeds.front();
        for (std::int64_t heads = 0; heads <= controller.most_heads; ++heads)
            for (std::int64_t feeds = 0; feeds <= controller.most_feeds + heads * head.most_feeds;
                 ++feeds) {
                if (places + feeds * feed.places > controller.places + heads * head.places)
                    continue;
                if (bus > controller.bus + heads * head.bus + feeds * feed.bus) continue;
                if (!enough(groups)) return;
                Sums all = sums;
                for (std::size_t k = 0; k < all.size(); ++k)
                    all[k] += head.sums[k] * heads + feed.sums[k] * feeds;
                found_.push_back(all);
            }
    }

    /// More than what is known to be enough is enough.
    bool enough(const std::vector<BareGroup>& groups) {
        for (const std::vector<int>& known : enough_)
            if (std::equal(known.begin(), known.end(), counts_.begin(), std::less_equal<>()))
                return true;
        if (!meets(groups, mix_.need)) return false;
        enough_.push_back(counts_);
        return true;
    }

    const BareMix& mix_;
    const BareFamily& family_;
    std::vector<int> counts_;
    std::vector<std::vector<int>> enough_; ///< counts that meet the need with this controller
    std::vector<Sums> found_;
};

std::vector<Sums> front_of(const std::vector<Sums>& all) {
    std::set<Sums> front;
    for (const Sums& one : all) {
        const bool beaten = std::any_of(all.begin(), all.end(), [&](const Sums& other) {
            for (std::size_t k = 0; k < one.size(); ++k)
                if (other[k] > one[k]) return false;
            return other != one;
        });
        if (!beaten) front.insert(one);
    }
    return {front.begin(), front.end()};
}

double broken_by(const CoverRow& row, const std::vector<double>& values) {
    double sum = static_cast<double>(row.least);
    for (std::size_t i = 0; i < values.size(); ++i)
        sum -= static_cast<double>(row.coefficients[i]) * values[i];
    return sum;
}

/// Three columns and up to four rows.
CoverLp small_program(Draws& draws, std::vector<std::int64_t>& costs) {
    std::vector<std::int64_t> most;
    for (int k = 0; k < 3; ++k) {
        costs.push_back(draws.between(0, 30));
        most.push_back(draws.between(0, 5));
    }
    CoverLp lp(costs, most);
    for (int k = draws.between(1, 4); k > 0; --k) {
        CoverRow row;
        for (int c = 0; c < 3; ++c) row.coefficients.push_back(draws.between(-4, 9));
        row.least = draws.between(-10, 40);
        lp.add_row(row);
    }
    return lp;
}

/// Least cost of the whole points within rows and bounds; -1: there is none.
std::int64_t least_whole(const CoverLp& lp, const std::vector<std::int64_t>& costs) {
    std::int64_t least = -1;
    for (std::int64_t a = 0; a <= lp.most(0); ++a)
        for (std::int64_t b = 0; b <= lp.most(1); ++b)
            for (std::int64_t c = 0; c <= lp.most(2); ++c) {
                const bool kept =
                    std::all_of(lp.rows().begin(), lp.rows().end(), [&](const CoverRow& row) {
                        const auto& f = row.coefficients;
                        return f[0] * a + f[1] * b + f[2] * c >= row.least;
                    });
                const std::int64_t cost = costs[0] * a + costs[1] * b + costs[2] * c;
                if (kept && (least < 0 || cost < least)) least = cost;
            }
    return least;
}

} // namespace

TEST_CASE("the cheapest bare mix and its tradeoffs are those of every choice") {
    Draws draws(1009);
    const int mixes = sampled(60);
    int feasible = 0, impossible = 0, vectors = 0;
    for (int i = 0; i < mixes; ++i) {
        const BareMix mix = small_mix(draws);
        const auto all = EveryChoice(mix).all();
        Work work;
        const BareAnswer answer = least_cost(mix, mix.families.front(), work);
        CAPTURE(i);
        CHECK(answer.proven);
        REQUIRE(answer.feasible == !all.empty());
        if (all.empty()) {
            ++impossible;
            continue;
        }
        ++feasible;
        CHECK(answer.sums[0] == (*std::min_element(all.begin(), all.end()))[0]);
        const auto front = tradeoffs(mix, mix.families.front(), work);
        REQUIRE(front);
        CHECK(*front == front_of(all));
        vectors += static_cast<int>(front->size());
    }
    std::cout << "bare mixes: " << feasible << " solved, " << impossible << " impossible, "
              << vectors << " vectors of fronts\n";
    CHECK(feasible >= mixes / 2);
    CHECK(impossible >= mixes * 2 / 15);
}

TEST_CASE("cards of one kind take few steps") {
    Draws draws(1021);
    std::int64_t most_steps = 0;
    int feasible = 0;
    for (int i = 0; i < 60; ++i) {
        const BareMix mix = one_kind_cards(draws);
        Work work;
        work.budget = 20000;
        const BareAnswer answer = least_cost(mix, mix.families.front(), work);
        CAPTURE(i);
        CHECK(answer.proven);
        feasible += answer.feasible;
        most_steps = std::max(most_steps, work.counts.candidates);
    }
    std::cout << "cards of one kind: " << feasible << " of 60 solved, at most " << most_steps
              << " steps\n";
    CHECK(feasible >= 30);
}

TEST_CASE("a search whose steps end says that it is not proven") {
    Draws draws(1031);
    const BareMix mix = one_kind_cards(draws);
    Work work;
    work.budget = 1;
    CHECK_FALSE(least_cost(mix, mix.families.front(), work).proven);
}

TEST_CASE("a set of kinds that is short of channels is found where there is one") {
    Draws draws(1013);
    int shorts = 0;
    for (int i = 0; i < 2000; ++i) {
        std::vector<ChannelClass> classes;
        const int kinds = draws.between(1, 5), count = draws.between(1, 6);
        for (int k = 0; k < count; ++k)
            classes.push_back(
                {static_cast<Signals>(draws.between(1, (1 << kinds) - 1)), draws.between(1, 8)});
        std::vector<std::int64_t> need;
        for (int k = 0; k < kinds; ++k) need.push_back(draws.between(0, 7));
        bool any = false; // Hall: every set of kinds
        for (Signals set = 1; set < Signals{1} << kinds; ++set) {
            std::int64_t asked = 0;
            for (int k = 0; k < kinds; ++k)
                if (set >> k & 1) asked += need[static_cast<std::size_t>(k)];
            any = any || channels_for(classes, set) < asked;
        }
        const auto found = short_kinds(classes, need);
        CHECK(found.has_value() == any);
        if (!found) continue;
        ++shorts;
        std::int64_t asked = 0;
        for (int k = 0; k < kinds; ++k)
            if (*found >> k & 1) asked += need[static_cast<std::size_t>(k)];
        CHECK(channels_for(classes, *found) < asked);
    }
    CHECK(shorts >= 400);
}

TEST_CASE("no whole point within rows and bounds costs less than the bound") {
    Draws draws(1019);
    int impossible = 0, solved = 0;
    for (int i = 0; i < 400; ++i) {
        std::vector<std::int64_t> costs;
        CoverLp lp = small_program(draws, costs);
        const CoverLp::State state = lp.solve();
        const std::int64_t least = least_whole(lp, costs);
        CAPTURE(i);
        CHECK(state != CoverLp::State::unknown);
        if (state == CoverLp::State::impossible) {
            ++impossible;
            CHECK(least < 0);
        } else if (least >= 0) {
            ++solved;
            CHECK(lp.bound() <= least);
        }
    }
    CHECK(impossible >= 50);
    CHECK(solved >= 100);
}

TEST_CASE("cuts keep every whole point and take the broken one away") {
    Draws draws(1033);
    int cuts = 0, dropped = 0;
    for (int i = 0; i < 600; ++i) {
        std::vector<std::int64_t> costs;
        CoverLp lp = small_program(draws, costs);
        if (lp.solve() != CoverLp::State::solved) continue;
        const std::int64_t least = least_whole(lp, costs), bound = lp.bound();
        CAPTURE(i);
        for (std::size_t column = 0; column < 3; ++column)
            if (const auto cut = lp.whole_cut(column)) {
                CHECK(broken_by(*cut, lp.values()) > 0);
                CoverLp more = lp;
                more.add_row(*cut);
                CHECK(least_whole(more, costs) == least);
                ++cuts;
            }
        const std::size_t rows = lp.rows().size();
        lp.drop_idle_rows(0);
        dropped += static_cast<int>(rows - lp.rows().size());
        CHECK(lp.solve() == CoverLp::State::solved);
        CHECK(lp.bound() == bound);
    }
    std::cout << "whole programs: " << cuts << " cuts, " << dropped << " idle rows\n";
    CHECK(cuts >= 100);
    CHECK(dropped >= 100);
}
