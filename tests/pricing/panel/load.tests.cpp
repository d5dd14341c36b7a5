#include "pricing/panel/load.h"

#include <catch2/catch.hpp>

#include "pricing/panel/supply.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

/// The worked balance of climate-and-supply 6: 64 DI of 5 mA, 32 DO of 0.15 A with a drop of 0.4 V,
/// 16 loops at 20 mA, 20 relays of 0.4 W, electronics 26 W, one supply of 480 W.
struct Balance {
    BidRequest request;
    Box box;
    Part inputs, electronics, relay, supply;
    BoxFacts facts;
    Arrangement arrangement;

    Balance() {
        add_points("DI", 64, "contact", 0, false);
        add_points("DO", 32, "2-wire", 0.15, true);
        add_points("AI_MA", 16, "2-wire", 0.02, true);
        facts.box = &box;
        facts.request = &request;
        facts.demand = demand_of(box, request.spare, starter_rules());
        for (const PointLine& line : box.points) {
            facts.planned.push_back(line.count);
            facts.wiring.push_back({});
            facts.wiring.back().direct.channels = line.count;
        }
        relay.key = "RELAY";
        relay.own_a = 0.4 / 24;
        facts.demand.lines[1].interface = starter_rules().find_interface("relay", "DO");
        facts.interfaces.push_back({1, &relay, 20});
        electronics.key = "ELECTRONICS";
        electronics.own_a = 26.0 / 24;
        inputs.key = "DI64";
        inputs.groups = *parse_groups("DI*64@0.005");
        arrangement.member.uses.push_back({&inputs, {64, 0, 0}, {0, 0, 0}});
        arrangement.stations = {{{{&electronics, -1}, {&inputs, 0}}}};
        supply.key = "S480";
        supply.rated_a = 20;
    }

private:
    void add_points(const char* signal, int count, const char* wiring, double amps, bool fed) {
        PointLine line;
        line.signal = signal;
        line.count = count;
        line.wiring = wiring;
        line.amps = amps;
        line.fed_from_box = fed;
        line.index = box.points.size();
        box.points.push_back(line);
    }
};

BoxLoad load_of(const Balance& balance) {
    BoxLoad load = sum_of(fixed_consumers(balance.facts, starter_rules()));
    for (const Consumer& consumer :
         chosen_consumers(balance.facts, balance.arrangement, {}, starter_rules()))
        load += consumer;
    return load;
}

} // namespace

TEST_CASE("worked balance of load and heat") {
    const Balance balance;
    const BoxLoad load = load_of(balance);
    // The drop over an output is heat inside beside the field load: 0.4 V × 0.15 A × 32 = 1.92 W.
    CHECK(load.all_on_a * 24 == Approx(164.56));
    CHECK(load.inside_w == Approx(7.68 + 1.92 + 1.6 + 8 + 26)); // 45.20 W
    const SupplyChoice choice{&balance.supply, 1, &starter_rules().losses.at("supply_loss")};
    const Watts loss = supply_loss(choice, {load.all_on_a}, starter_rules().supply);
    CHECK(loss.value == Approx(11.28).margin(0.005));
    CHECK(load.inside_w + loss.value == Approx(56.48).margin(0.005));
}

TEST_CASE("the balance closes: what is no heat inside leaves through the terminals") {
    const Balance balance;
    const BoxLoad load = load_of(balance);
    // 119.36 W leave the box: 113.28 W at the outputs behind the drop, 6.08 W of the loops.
    CHECK(load.all_on_a * 24 - load.inside_w == Approx(119.36));
    // field_a holds the outputs before the drop (115.2 W) and the loops behind the burden.
    CHECK(load.field_a * 24 == Approx(115.2 + 6.08));
}

TEST_CASE("what is on together counts for the supply, not for the heat") {
    Balance balance;
    const BoxLoad all = load_of(balance);
    balance.box.points[1].on_together = Percent::whole(50);
    const BoxLoad half = load_of(balance);
    CHECK(half.all_on_a == Approx(all.all_on_a));
    CHECK(half.inside_w == Approx(all.inside_w));
    // Half of 32 × 0.15 A and of the 20 relays that stand behind the same line.
    CHECK(all.together_a - half.together_a == Approx(2.4 + 20 * 0.4 / 24 / 2));
}

TEST_CASE("loops and outputs fed from elsewhere draw nothing, yet warm the box") {
    Balance balance;
    for (PointLine& line : balance.box.points) line.fed_from_box = false;
    const BoxLoad load = load_of(balance);
    CHECK(load.all_on_a * 24 == Approx(7.68 + 8 + 26));
    CHECK(load.inside_w == Approx(45.20));
    CHECK(load.field_a == 0);
}

TEST_CASE("an analogue output is taken at its worst, short-circuited") {
    Balance balance;
    PointLine line;
    line.signal = "AO_MA";
    line.count = 4;
    line.amps = 0.02;
    balance.box.points = {line};
    balance.facts.demand = demand_of(balance.box, balance.request.spare, starter_rules());
    balance.facts.planned = {4};
    balance.facts.wiring.resize(1);
    balance.facts.interfaces.clear();
    const BoxLoad load = sum_of(fixed_consumers(balance.facts, starter_rules()));
    CHECK(load.inside_w == Approx(4 * 0.48)); // climate-and-supply 6
    CHECK(load.field_a == 0);
}
