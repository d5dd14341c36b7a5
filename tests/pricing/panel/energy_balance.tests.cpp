// The balance of energy closes on whole panels: what the mains give is what stays inside and what
// leaves through the terminals. All three sides are made here from the bill, the request and the
// channels, apart from the sums of the product. Source: climate-and-supply 6.
#include <catch2/catch.hpp>
#include <cmath>
#include <iostream>

#include "pricing/panel/choose_panel.h"
#include "pricing/panel/supply.h"
#include "tests/pricing/panel/random_panels.h"

using namespace backplate;

namespace {

constexpr double volts = 24, drop_v = 0.4, loop_a = 0.02, burden = 250;

struct Sides {
    double electronics_w = 0, inputs_w = 0; ///< inside
    double outputs_a = 0, loops_a = 0;      ///< to the field
    int loops = 0;                          ///< that end on an input, fed or not
    double mains_heat_w = 0;                ///< decoupling, backup, fans on the mains
    double loss_w = 0;

    double all_on_a() const { return (electronics_w + inputs_w) / volts + outputs_a + loops_a; }
    double field_w() const {
        const double burdens = loops_a > 0 ? loops * loop_a * loop_a * burden : 0;
        return outputs_a * (volts - drop_v) + loops_a * volts - burdens;
    }
    double mains_w() const { return all_on_a() * volts + loss_w + mains_heat_w; }
};

/// Loss of so many units at the load, by the coefficients of climate-and-supply 5.1.
double loss_of(double unit_a, int units, double load_a) {
    const double x = load_a / (unit_a * units);
    return unit_a * units * volts * (0.012 + 0.025 * x + 0.025 * x * x);
}

void add_bill(Sides& sides, const PanelDesign& design) {
    for (const BillItem& item : design.bill) {
        if (!item.part) continue;
        const double pieces = static_cast<double>(item.quantity);
        if (item.part->own_a)
            sides.electronics_w += *item.part->own_a * volts * pieces;
        else if (item.part->own_w && item.part->kind != "heater")
            sides.mains_heat_w += *item.part->own_w * pieces;
    }
}

/// Required channels of each line draw; inputs by the group of the module that carries them.
void add_channels(Sides& sides, const PanelChoice& choice) {
    const BoxFacts& facts = choice.search->facts;
    for (std::size_t i = 0; i < facts.demand.lines.size(); ++i) {
        const DemandLine& line = facts.demand.lines[i];
        const PointLine& points = *line.points;
        if (points.signal == "DO") sides.outputs_a += facts.planned[i] * points.amps;
        if (points.signal != "AI_MA") continue;
        sides.loops = facts.planned[i];
        if (points.fed_from_box) sides.loops_a = facts.planned[i] * points.amps;
    }
    for (const ModuleUse& use : choice.design->arrangement->member.uses)
        for (std::size_t mix = 0; mix < use.carried.size(); ++mix)
            for (const ChannelGroup& group : use.part->groups)
                if (facts.demand.lines[facts.demand.mix[mix].lines.front()].points->signal ==
                        "DI" &&
                    group.signals.front() == "DI")
                    sides.inputs_w += use.carried[mix] * group.channel_a * volts;
}

Sides sides_of(const PanelChoice& choice) {
    Sides sides;
    const PanelDesign& design = *choice.design;
    add_bill(sides, design);
    add_channels(sides, choice);
    int units = 0;
    const Part* supply = nullptr;
    for (const BillItem& item : design.bill)
        if (item.part && item.part->kind == "supply") {
            supply = item.part;
            units = static_cast<int>(item.quantity);
        }
    if (!supply) return sides;
    const double load = sides.all_on_a();
    sides.loss_w = loss_of(*supply->rated_a, units, load);
    if (design.supply.redundant())
        sides.loss_w = std::max(sides.loss_w, loss_of(*supply->rated_a, units - 1, load));
    return sides;
}

} // namespace

TEST_CASE("the balance of energy closes on every panel that is built") {
    int built = 0, redundant = 0, fans = 0;
    double share = 0;
    for (unsigned seed = 1; seed <= 220; ++seed) {
        Draws draws(seed);
        const PriceBook book(random_book(draws), 1);
        const BidRequest request = request_of(random_request(draws));
        Work work;
        const PanelChoice choice =
            choose_panel(request, request.boxes.front(), book, starter_rules(), work);
        if (!choice.design) continue;
        const Sides sides = sides_of(choice);
        CAPTURE(seed);
        CHECK(sides.all_on_a() == Approx(choice.design->all_on.value).epsilon(1e-9));
        const double inside = choice.design->inside.value;
        CHECK(std::abs(sides.mains_w() - sides.field_w() - inside) < 1e-9 * sides.mains_w());
        redundant += choice.design->supply.redundant() ? 1 : 0;
        fans += choice.design->stage.part ? 1 : 0;
        share += inside / sides.mains_w();
        ++built;
    }
    std::cout << "balance of energy: " << built << " panels closed, " << redundant
              << " with two supplies, " << fans << " with a fan; " << 100 * share / built
              << " % stays inside in the mean\n";
    CHECK(built >= 120);
    CHECK(redundant >= 10);
}
