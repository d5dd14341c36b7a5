#include "pricing/panel/beaten_choices.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <deque>
#include <iostream>

#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

double one_of(Draws& draws, double first, double step, int steps) {
    return first + step * draws.between(0, steps);
}

/// Supplies of few sizes and prices, so that one often stands in for another.
std::vector<SupplyChoice> random_supplies(Draws& draws, std::deque<Part>& parts) {
    std::vector<SupplyChoice> choices;
    const auto& losses = starter_rules().losses;
    for (int i = 0; i < 12; ++i) {
        Part part;
        part.key = "S" + std::to_string(i);
        part.kind = "supply";
        part.list = Money::of_steps(draws.between(5, 9) * 100'000);
        part.rated_a = one_of(draws, 5, 5, 3);
        part.width_mm = one_of(draws, 40, 10, 2);
        if (draws.chance(50)) part.max_c = one_of(draws, 60, 10, 1);
        if (draws.chance(30)) part.min_c = one_of(draws, -25, 15, 1);
        part.input_min_v = 100;
        part.input_max_v = 240;
        parts.push_back(part);
        auto loss = losses.begin();
        std::advance(loss, draws.between(0, static_cast<int>(losses.size()) - 1));
        choices.push_back({&parts.back(), draws.between(1, 2), &loss->second, nullptr});
    }
    return choices;
}

/// One does whatever the other does, judged at many loads by the functions of the chain.
bool never_worse(const SupplyChoice& one, const SupplyChoice& other, double least_a) {
    const SupplyRules& rules = starter_rules().supply;
    if (price_of(one) > price_of(other) || one.quantity > other.quantity) return false;
    if (*one.part->width_mm * one.quantity > *other.part->width_mm * other.quantity) return false;
    if (one.part->min_c.value_or(-300) > other.part->min_c.value_or(-300)) return false;
    for (double amps = least_a; amps <= other.rated_a(); amps += 0.01) {
        const auto own = highest_air(one, {amps}, 0, rules);
        const auto its = highest_air(other, {amps}, 0, rules);
        if (its && (!own || own->value < its->value - 1e-9)) return false;
        if (supply_loss(one, {amps}, rules).value > supply_loss(other, {amps}, rules).value + 1e-9)
            return false;
    }
    return true;
}

} // namespace

TEST_CASE("a supply is left out only where one that stays does all that it does") {
    Draws draws(301);
    Site site;
    int left_out = 0, kept = 0, without_need = 0;
    for (int i = 0; i < 100; ++i) {
        std::deque<Part> parts;
        const auto all = random_supplies(draws, parts);
        const double least_a = one_of(draws, 0, 1, 6);
        const auto unbeaten = without_beaten(all, least_a, site, starter_rules().supply);
        for (const SupplyChoice& choice : all) {
            const bool stays =
                std::any_of(unbeaten.begin(), unbeaten.end(),
                            [&](const SupplyChoice& other) { return other.part == choice.part; });
            const bool served =
                std::any_of(unbeaten.begin(), unbeaten.end(), [&](const SupplyChoice& other) {
                    return other.part != choice.part && never_worse(other, choice, least_a);
                });
            if (!stays) CHECK(served);
            left_out += stays ? 0 : 1;
            kept += stays ? 1 : 0;
            without_need += stays && served ? 1 : 0;
        }
    }
    std::cout << "supplies: " << left_out << " left out, " << kept << " kept, " << without_need
              << " of them in vain\n";
    CHECK(left_out >= 100);
    CHECK(kept >= 300);
}

TEST_CASE("a stage is left out only for one of its kind that carries as much heat for less") {
    std::deque<Part> parts;
    const auto fan = [&](const char* key, int price, double flow, double own_w) {
        Part part;
        part.key = key;
        part.list = Money::of_steps(price * 10'000);
        part.flow_m3h = flow;
        part.own_w = own_w;
        parts.push_back(part);
        return CoolingStage{"filter_fan", &parts.back(), 1};
    };
    const auto good = fan("good", 100, 200, 20), dear = fan("dear", 120, 200, 20);
    const auto strong = fan("strong", 130, 300, 20), thrifty = fan("thrifty", 110, 150, 10);
    auto other = fan("other", 150, 100, 30);
    other.name = "air_exchanger";
    const auto twin = fan("twin", 100, 200, 20);
    const auto kept =
        without_beaten({CoolingStage{}, dear, good, strong, thrifty, other, twin}, Site{});
    std::vector<std::string> names;
    for (const CoolingStage& stage : kept) names.push_back(stage.part ? stage.part->key : "sealed");
    CHECK(names == std::vector<std::string>{"sealed", "good", "strong", "thrifty", "other"});
}
