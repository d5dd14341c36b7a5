// The balance of energy closes on whole panels: what the mains give is what stays inside and what
// leaves through the terminals. All three sides are made here from the bill, the request and the
// channels, apart from the sums of the product. Source: climate-and-supply 6.
#include <catch2/catch.hpp>
#include <cmath>
#include <iostream>

#include "pricing/panel/choose_panel.h"
#include "pricing/panel/supply.h"
#include "tests/pricing/panel/random_groups.h"

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

namespace {

/// The three sides with the groups' loads taken out of the main supply and put behind their own.
struct GroupSides {
    Sides main;
    double further_w = 0;  ///< at the mains, losses included
    double to_field_w = 0; ///< of further voltages, and of outputs behind their own supply
};

GroupSides group_sides(const PanelChoice& choice) {
    GroupSides sides;
    const PanelDesign& design = *choice.design;
    add_bill(sides.main, design);
    add_channels(sides.main, choice);
    for (const GroupSupply& group : design.further) {
        double load_a = group.all_on.value;
        double unit_v = group.units.part->output_v.value_or(volts);
        if (choice.search->facts.groups[group.group].word == "outputs") {
            const double own_a = 0.01 * group.channels;
            load_a = sides.main.outputs_a + own_a;
            sides.main.electronics_w -= own_a * volts; // behind the other supply
            sides.to_field_w += sides.main.outputs_a * (volts - drop_v);
            sides.main.outputs_a = 0;
        } else {
            double asked_a = 0;
            for (const Equipment& each : choice.search->facts.box->equipment)
                if (each.volts == unit_v && (each.current == "ac") == group.transforms())
                    asked_a += *each.amps * each.quantity;
            load_a = asked_a;
            sides.to_field_w += asked_a * unit_v;
        }
        CHECK(load_a == Approx(group.all_on.value).epsilon(1e-9));
        double loss = 0;
        if (group.transforms()) {
            if (!group.units.part->own_w) loss = *group.units.part->rated_va * 0.08;
        } else {
            const double per_volt = unit_v / volts;
            loss = loss_of(*group.units.part->rated_a, group.units.quantity, load_a) * per_volt;
            if (group.units.redundant())
                loss = std::max(
                    loss, loss_of(*group.units.part->rated_a, group.units.quantity - 1, load_a) *
                              per_volt);
        }
        sides.further_w += load_a * unit_v + loss;
    }
    return sides;
}

} // namespace

// What an output drops stays inside, whose ever supply feeds it; a transformer's own watts stand
// among those of parts on the mains.
TEST_CASE("the balance of energy closes with supplies of groups of their own") {
    int built = 0, parted = 0, transformers = 0;
    for (unsigned seed = 1; seed <= 150; ++seed) {
        Draws draws(seed);
        std::vector<Part> parts = random_book(draws);
        for (Part& part : parts)
            if (part.kind == "protection") part.own_a = 0.01;
        add_group_parts(draws, parts);
        const PriceBook book(std::move(parts), 1);
        const BidRequest request = request_of(random_group_request(draws));
        Work work;
        const PanelChoice choice =
            choose_panel(request, request.boxes.front(), book, starter_rules(), work);
        if (!choice.design) continue;
        CAPTURE(seed);
        const PanelDesign& design = *choice.design;
        GroupSides sides = group_sides(choice);
        const double load = sides.main.all_on_a();
        CHECK(load == Approx(design.all_on.value).epsilon(1e-9));
        const SupplyChoice& own = design.supply;
        sides.main.loss_w = loss_of(own.unit_a(), own.quantity, load);
        if (own.redundant())
            sides.main.loss_w =
                std::max(sides.main.loss_w, loss_of(own.unit_a(), own.quantity - 1, load));
        const double mains = sides.main.mains_w() + sides.further_w;
        const double field = sides.main.field_w() + sides.to_field_w;
        CHECK(std::abs(mains - field - design.inside.value) < 1e-9 * mains);
        for (const GroupSupply& group : design.further) {
            parted += group.protection ? 1 : 0;
            transformers += group.transforms() ? 1 : 0;
        }
        ++built;
    }
    std::cout << "balance of energy with groups: " << built << " panels closed, " << parted
              << " with their outputs parted, " << transformers << " transformers\n";
    CHECK(built >= 60);
    CHECK(parted >= 25);
    CHECK(transformers >= 15);
}
