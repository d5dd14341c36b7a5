// The chosen panel against every panel of small random price books, judged one by one.
#include "pricing/panel/choose_panel.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <iostream>
#include <optional>

#include "tests/draw_count.h"
#include "tests/pricing/mix/every_arrangement.h"
#include "tests/pricing/panel/random_groups.h"

using namespace backplate;

namespace {

struct Best {
    std::optional<std::int64_t> cost;
    std::size_t judged = 0;
    int pieces = 1; ///< enclosures of the cheapest
};

/// Every supply of every group with each other, those that others stand in for too.
std::vector<FurtherSupplies> every_further(const SearchFacts& search) {
    std::vector<FurtherSupplies> ways(1);
    for (std::size_t group = 0; group < search.facts.groups.size(); ++group) {
        if (search.facts.groups[group].on_mains) continue;
        const auto choices = group_choices(search, group);
        if (choices.empty() && search.facts.groups[group].word == "outputs") return {};
        std::vector<FurtherSupplies> longer;
        for (const FurtherSupplies& way : ways)
            for (const GroupSupply& choice : choices) {
                longer.push_back(way);
                longer.back().groups.push_back(choice);
            }
        if (!choices.empty()) ways = std::move(longer);
    }
    return ways;
}

void judge_powered(const PanelDesign& start, const SearchFacts& search,
                   const FurtherSupplies& further, ShedTable& shed, Best& best) {
    for (const SupplyChoice& supply : search.supplies)
        for (std::size_t stage = 0; stage < search.stages.size(); ++stage) {
            for (const Suite& enclosure : search.housing.candidates) {
                PanelDesign design = start;
                if (with_power(design, search, supply, further, stage, enclosure.pieces) !=
                    Refusal::none)
                    continue;
                ++best.judged;
                if (in_enclosure(design, search, enclosure, shed) != Refusal::none) continue;
                if (best.cost && design.direct_cost >= *best.cost) continue;
                best.cost = design.direct_cost;
                best.pieces = enclosure.pieces;
            }
        }
}

/// Supplies and stages as the price book holds them, those that others stand in for too.
void take_every_choice(SearchFacts& search, const PriceBook& book, const RuleBook& rules) {
    search.supplies = supply_choices(book, search.facts, rules);
    for (SupplyChoice& supply : search.supplies)
        supply.wire =
            supply_wire(book, search.facts, search.parts, supply.unit_a(), supply.carrying());
    search.stages = cooling_stages(book, search.facts);
}

/// Every cover × arrangement × supply × stage × enclosure by the chain of one candidate.
Best judge_all(const SearchFacts& search, const PriceBook& book, const RuleBook& rules) {
    Work work;
    ShedTable shed(*search.facts.box, rules, work);
    Best best;
    const auto ways = every_further(search);
    for (const PlatformCase& platform :
         platform_cases(book, search.facts, rules, search.plan, true)) {
        if (!platform.limits.empty()) continue;
        for (const MixMember& member : EveryCover(platform.problem).all())
            for (Arrangement& arrangement :
                 every_arrangement(member, *platform.leader, platform.closers))
                for (const PanelDesign start =
                         with_arrangement(search, platform, std::move(arrangement));
                     const FurtherSupplies& further : ways)
                    judge_powered(start, search, further, shed, best);
    }
    return best;
}

/// Only floor enclosures so small that several stand side by side in most panels.
std::vector<Part> with_small_floor_enclosures(std::vector<Part> parts) {
    std::erase_if(parts, [](const Part& part) { return part.kind == "enclosure"; });
    add_enclosure(parts, "FL1", 260, 450, 600, true);
    add_enclosure(parts, "FL2", 330, 500, 750, true);
    parts.back().cutout_factor = 1.4;
    Part kit = priced("accessory", "JK", 30);
    kit.function = "joining kit";
    parts.push_back(kit);
    return parts;
}

using Changed = std::vector<Part> (*)(std::vector<Part>, Draws&);

std::vector<Part> as_drawn(std::vector<Part> parts, Draws&) { return parts; }

/// Copies of some parts under further keys, some dearer, some the same but for their price.
std::vector<Part> with_near_copies(std::vector<Part> parts, Draws& draws) {
    const std::size_t drawn = parts.size();
    int modules = 0;
    for (std::size_t i = 0; i < drawn; ++i) {
        if (parts[i].kind == "accessory" || !draws.chance(25)) continue;
        if (parts[i].kind == "module" && ++modules > 1) continue; // every way of them is judged
        Part copy = parts[i];
        copy.key = (draws.chance(50) ? "A" : "Z") + copy.key;
        copy.list = Money::of_steps(copy.list->steps() + draws.between(-1, 3) * 5'000);
        const int change = draws.between(0, 7);
        if (change == 0 && copy.own_a) *copy.own_a += 0.005 * draws.between(-1, 1);
        if (change == 1 && copy.width_mm) *copy.width_mm += draws.between(-3, 3);
        if (change == 2 && copy.max_c) *copy.max_c += draws.between(-5, 5);
        if (change == 3) copy.places += copy.places > 1 ? draws.between(-1, 1) : 0;
        if (change == 4 && copy.depth_mm) *copy.depth_mm += draws.between(-9, 9);
        parts.push_back(std::move(copy));
    }
    return parts;
}

/// Books judged, of which so many are built as suites.
int judge_books(Draws& draws, int books, bool small_enclosures, Changed changed = as_drawn,
                bool groups = false) {
    RuleBook rules = starter_rules();
    if (groups) rules.supply.most_in_parallel->value = {1, 0}; // else too many ways to judge
    std::size_t judged = 0, candidates = 0;
    int built = 0, dearer = 0, suites = 0;
    for (int i = 0; i < books; ++i) {
        std::vector<Part> parts = random_book(draws);
        if (small_enclosures) parts = with_small_floor_enclosures(std::move(parts));
        if (groups) add_group_parts(draws, parts);
        const PriceBook book(changed(std::move(parts), draws), 1);
        const BidRequest request =
            request_of(groups ? random_group_request(draws) : random_request(draws));
        Work work;
        const PanelChoice choice = choose_panel(request, request.boxes.front(), book, rules, work);
        take_every_choice(*choice.search, book, rules);
        const Best best = judge_all(*choice.search, book, rules);
        CAPTURE(i, best.cost.value_or(0), choice.design ? choice.design->direct_cost : 0);
        CHECK(choice.design.has_value() == best.cost.has_value());
        judged += best.judged;
        candidates += static_cast<std::size_t>(work.counts.candidates);
        if (!choice.design || !best.cost) continue;
        ++built;
        CHECK(choice.proven);
        CHECK(choice.design->direct_cost <= *best.cost);
        dearer += choice.design->direct_cost > *best.cost ? 1 : 0;
        suites += best.pieces > 1 ? 1 : 0;
    }
    std::cout << "whole panels: " << built << " of " << books << " books built, " << judged
              << " panels judged one by one, " << candidates << " by the search, " << dearer
              << " answers not the cheapest, " << suites << " suites\n";
    CHECK(built >= books * 3 / 5);
    CHECK(judged >= static_cast<std::size_t>(books) * 100);
    CHECK(dearer == 0);
    return suites;
}

} // namespace

TEST_CASE("the chosen panel is the cheapest of all that the chain admits") {
    Draws draws(31);
    judge_books(draws, sampled(200), false);
}

TEST_CASE("the chosen suite is the cheapest of all, one enclosure alone among them") {
    Draws draws(113);
    const int books = sampled(60);
    CHECK(judge_books(draws, books, true) >= books / 3);
}

TEST_CASE("with supplies of groups of their own too, the chosen panel is the cheapest of all") {
    Draws draws(41);
    judge_books(draws, sampled(40), false, as_drawn, true);
}

TEST_CASE("the chosen panel is the cheapest of all where articles are near copies of others") {
    Draws draws(127);
    judge_books(draws, sampled(20), false, with_near_copies);
}
