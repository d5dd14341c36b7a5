#include "pricing/panel/supply.h"

#include <catch2/catch.hpp>
#include <optional>

#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

SupplyRules rules_with(int knee_c, const char* altitude_percent) {
    SupplyRules rules = starter_rules().supply;
    rules.knee_c.value = {knee_c, 0};
    rules.altitude_percent_per_km->value = *parse_decimal(altitude_percent);
    return rules;
}

/// A supply of `watts` at 24 V with a loss row of its own.
struct Supply {
    Part part;
    LossRow loss;

    Supply(double watts, const char* l0, const char* l1, const char* l2, double end_c = 70) {
        part.key = "S";
        part.rated_a = watts / 24;
        part.max_c = end_c;
        loss.l0.value = *parse_decimal(l0);
        loss.l1.value = *parse_decimal(l1);
        loss.l2.value = *parse_decimal(l2);
    }
    SupplyChoice choice(int pieces = 1) const { return {&part, pieces, &loss}; }
};

Supply generic(double watts) { return Supply(watts, "0.012", "0.025", "0.025"); }

} // namespace

TEST_CASE("loss of a supply") {
    const SupplyRules& rules = starter_rules().supply;
    // climate-and-supply 5.6: 288 W on 360 W and 480 W loses 17.28 W, on 960 W 20.88 W.
    CHECK(supply_loss(generic(360).choice(), {12}, rules).value == Approx(17.28));
    CHECK(supply_loss(generic(480).choice(), {12}, rules).value == Approx(17.28));
    CHECK(supply_loss(generic(960).choice(), {12}, rules).value == Approx(20.88));
    CHECK(supply_loss(generic(480).choice(2), {12}, rules).value == Approx(20.88)); // 5.4: 20.9
    // 5.4: one plus one loses the worse of 20.9 W (both at half) and 17.3 W (one at all).
    const Supply pair = generic(480);
    SupplyChoice redundant = pair.choice(2);
    redundant.decoupler = &pair.part;
    CHECK(supply_loss(redundant, {12}, rules).value == Approx(20.88));
    CHECK(redundant.rated_a() == Approx(20)); // one alone carries everything
    // Two plus one: the worse of three sharing the load and two sharing it; two carry everything.
    redundant.quantity = 3;
    const double of_three = 1440 * (0.012 + 0.025 * 0.2 + 0.025 * 0.04); // 25.92 W
    CHECK(supply_loss(redundant, {12}, rules).value == Approx(of_three));
    CHECK(redundant.rated_a() == Approx(40));
    // Near the rating of what is left the state of failure loses more: 2 × 480 W at 40 A.
    const Supply copper(480, "0", "0.01", "0.05");
    redundant = copper.choice(3);
    redundant.decoupler = &copper.part;
    CHECK(supply_loss(redundant, {40}, rules).value == Approx(960 * (0.01 + 0.05)));
    // 5.1: 87.2 % at a tenth, 94.2 % at half and at full load.
    for (const auto& [share, efficiency] :
         {std::pair{0.1, 0.872}, std::pair{0.5, 0.942}, std::pair{1.0, 0.942}}) {
        const double out = 480 * share;
        const double loss = supply_loss(generic(480).choice(), {out / 24}, rules).value;
        CHECK(out / (out + loss) == Approx(efficiency).margin(0.001));
    }
    // 5.1, published: 1536 W at 90 % loses 171 W, not 154; 480 W at 95.6 % loses 22 W.
    CHECK(supply_loss(Supply(1536, "0.111111", "0", "0").choice(), {64}, rules).value ==
          Approx(171).margin(0.5));
    CHECK(supply_loss(Supply(480, "0", "0.046025", "0").choice(), {20}, rules).value ==
          Approx(22).margin(0.2));
}

TEST_CASE("derating by temperature and altitude") {
    const SupplyRules rules = rules_with(60, "7");
    const Supply supply = generic(480);
    const SupplyChoice choice = supply.choice();
    CHECK(temperature_factor(choice, {20}, rules) == 1);
    CHECK(temperature_factor(choice, {60}, rules) == 1);
    // climate-and-supply 5.6: 0.810 at 67.61 °C, 0.789 at 68.44 °C, 0.846 at 66.16 °C.
    CHECK(temperature_factor(choice, {67.61}, rules) == Approx(0.810).margin(0.0005));
    CHECK(temperature_factor(choice, {68.44}, rules) == Approx(0.789).margin(0.0005));
    CHECK(temperature_factor(choice, {66.16}, rules) == Approx(0.846).margin(0.0005));
    CHECK(temperature_factor(choice, {70}, rules) == 0);
    CHECK(altitude_factor(2000, rules) == 1);
    CHECK(altitude_factor(2500, rules) == Approx(0.965)); // 7 % per 1000 m
    CHECK(altitude_factor(6000, rules) == Approx(0.72));
    for (int celsius = -20; celsius < 100; ++celsius) {
        const double factor = temperature_factor(choice, {1.0 * celsius}, rules);
        CHECK(factor >= 0);
        CHECK(factor <= 1);
        CHECK(temperature_factor(choice, {celsius + 1.0}, rules) <= factor);
    }
}

namespace {

struct Chain {
    double watts, top_c;
    bool carries;
};

/// Worked example of climate-and-supply 5.6 at 45 °C: the air at the top as given there; altitude
/// taken as a factor (2500 m: 0.965) in place of the shift of 2.5 K, so the capacities are
/// 0.8 × 0.965 × f × rated, f = 1 − 0.025 (top − 60): 242.4, 323.2 and 631.7 W against 288 W.
constexpr Chain chains[] = {{360, 65.11, false}, {480, 65.11, true}, {960, 65.94, true}};

} // namespace

TEST_CASE("worked chain of supplies") {
    const SupplyRules rules = rules_with(60, "7");
    int judged = 0;
    for (const Chain& row : chains) {
        CAPTURE(row.watts);
        const Supply supply = generic(row.watts);
        const auto highest = highest_air(supply.choice(), {12}, 2500, rules);
        CHECK((highest && highest->value >= row.top_c) == row.carries);
        ++judged;
    }
    // At 50 °C outside the air is at 72.6 °C or more: no size of supply carries anything there.
    for (const double watts : {360.0, 480.0, 960.0, 9600.0})
        CHECK(temperature_factor(generic(watts).choice(), {72.6}, rules) == 0);
    CHECK(judged == 3);
}

TEST_CASE("the highest air is the inverse of the derating") {
    const SupplyRules rules = rules_with(55, "7");
    int judged = 0;
    for (const double watts : {60.0, 120.0, 240.0, 480.0})
        for (int load = 1; load <= 100; ++load)
            for (const double altitude : {0.0, 2500.0, 4000.0}) {
                const Supply supply = generic(watts);
                const SupplyChoice choice = supply.choice();
                const Amperes amperes{watts / 24 * load / 100};
                const auto highest = highest_air(choice, amperes, altitude, rules);
                const double most = choice.rated_a() * altitude_factor(altitude, rules) * 0.8;
                CHECK(highest.has_value() == (amperes.value <= most));
                if (!highest) continue;
                const auto capacity = [&](double air) {
                    return most * temperature_factor(choice, {air}, rules);
                };
                CHECK(capacity(highest->value - 0.001) >= amperes.value * (1 - 1e-9));
                CHECK(capacity(highest->value + 0.02) <= amperes.value);
                ++judged;
            }
    CHECK(judged >= 800);
}

namespace {

/// Does the supply pass the straight chain in a box of thermal resistance `k_per_w`?
bool passes(const Supply& supply, double load_w, double other_w, double outside_c, double k_per_w,
            const SupplyRules& rules) {
    const Amperes load{load_w / 24};
    const double heat = other_w + supply_loss(supply.choice(), load, rules).value;
    const double air = outside_c + k_per_w * heat;
    const auto highest = highest_air(supply.choice(), load, 0, rules);
    return highest && air <= highest->value;
}

} // namespace

TEST_CASE("the traps of sizing in a loop do not trap the chain") {
    // climate-and-supply 5.6, trap 1: at 240 W the air asks for 480 W, at 480 W for 240 W again.
    SupplyRules rules = rules_with(60, "7");
    const Supply small(240, "0.0625", "0", "0"), large(480, "0.0229167", "0", "0");
    CHECK(supply_loss(small.choice(), {200.0 / 24}, rules).value == Approx(15));
    CHECK(supply_loss(large.choice(), {200.0 / 24}, rules).value == Approx(11).margin(0.01));
    rules.utilisation.value = {1, 0};
    CHECK_FALSE(passes(small, 200, 40, 40, 0.5, rules));
    CHECK(passes(large, 200, 40, 40, 0.5, rules)); // each candidate has one answer
    // Trap 2: 1 K/W, 20 W other heat, load 60 W, 45 °C: 240 W carries it, 360 W does not.
    CHECK(passes(generic(240), 60, 20, 45, 1, rules_with(60, "7")));
    CHECK_FALSE(passes(generic(360), 60, 20, 45, 1, rules_with(60, "7")));
}
