#include "pricing/panel/layout.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <deque>
#include <iostream>
#include <map>

#include "pricing/panel/devices.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

namespace {

/// A panel of random contents with what its pointers rest on.
struct RandomPanel {
    std::deque<Part> parts;
    Box box;
    BidRequest request;
    SearchFacts search;
    PanelDesign design;
    Percent reserve;
};

const Part* add_part(RandomPanel& panel, const char* kind, int narrow, int wide, int high) {
    Part part;
    part.key = std::string(kind) + "-" + std::to_string(panel.parts.size());
    part.kind = kind;
    part.width_mm = narrow / 10.0 + static_cast<double>(wide - narrow) / 10;
    part.height_mm = high;
    part.depth_mm = 60;
    panel.parts.push_back(std::move(part));
    return &panel.parts.back();
}

const Part* random_part(RandomPanel& panel, Draws& draws, const char* kind, int narrow, int wide,
                        int highest) {
    const int width = draws.between(narrow, wide);
    return add_part(panel, kind, width, width, draws.between(60, highest));
}

void add_some(RandomPanel& panel, Draws& draws, const char* kind, int most, int narrow, int wide,
              int highest) {
    for (int kinds = draws.between(0, 3); kinds > 0; --kinds)
        panel.design.bill.push_back({random_part(panel, draws, kind, narrow, wide, highest),
                                     nullptr, kind, draws.between(1, most)});
}

void add_platform(RandomPanel& panel, Draws& draws) {
    Arrangement arrangement;
    for (int stations = draws.between(0, 3); stations > 0; --stations) {
        Station station;
        const bool first = arrangement.stations.empty();
        station.places.push_back(
            {random_part(panel, draws, first ? "controller" : "head", 300, 1300, 125), -1});
        for (int kinds = draws.between(0, 4); kinds > 0; --kinds) {
            const Part* module = random_part(panel, draws, "module", 100, 400, 125);
            panel.parts.back().bus_ma = draws.chance(80) ? 30 : 0;
            for (int i = draws.between(1, 14); i > 0; --i) station.places.push_back({module, 0});
        }
        for (const Place& place : station.places)
            panel.design.bill.push_back({place.part, nullptr, place.part->kind, 1});
        arrangement.stations.push_back(std::move(station));
    }
    panel.design.arrangement = std::make_shared<const Arrangement>(std::move(arrangement));
}

void add_terminals(RandomPanel& panel, Draws& draws) {
    auto& counts = panel.design.terminal_counts;
    counts.push_back({random_part(panel, draws, "terminal", 42, 82, 80), draws.between(0, 300)});
    panel.search.parts.terminal = counts.front().part;
    if (draws.chance(40))
        counts.push_back(
            {random_part(panel, draws, "terminal", 52, 130, 80), draws.between(0, 60)});
    panel.design.incoming.terminal = random_part(panel, draws, "terminal", 52, 160, 80);
    panel.design.incoming.earth_terminal = random_part(panel, draws, "terminal", 52, 160, 80);
    counts.push_back({panel.design.incoming.terminal, 2});
    counts.push_back({panel.design.incoming.earth_terminal, 1});
    for (const TerminalCount& count : counts)
        panel.design.terminals += static_cast<int>(count.pieces);
}

void fill(RandomPanel& panel, Draws& draws) {
    panel.search.rules = &starter_rules();
    panel.search.facts.box = &panel.box;
    panel.search.facts.request = &panel.request;
    panel.search.facts.rules = &starter_rules();
    add_platform(panel, draws);
    add_some(panel, draws, "incoming", 3, 180, 810, 130);
    add_some(panel, draws, "supply", 2, 300, 1300, 200);
    add_some(panel, draws, "backup", 1, 600, 1700, 200);
    add_some(panel, draws, "interface", 20, 62, 225, 100);
    add_some(panel, draws, "protection", 8, 125, 175, 100);
    add_some(panel, draws, "heater", 1, 350, 1000, 165);
    add_terminals(panel, draws);
    panel.design.wires = draws.between(0, 800);
    panel.reserve = Percent::whole(draws.between(0, 4) * 10);
}

Part random_plate(Draws& draws) {
    Part plate;
    plate.mounting = draws.chance(50) ? "wall" : "floor";
    plate.plate_width_mm = draws.between(250, 1500);
    plate.plate_height_mm = draws.between(300, 1900);
    if (draws.chance(70)) {
        plate.width_mm = *plate.plate_width_mm + 50;
        plate.height_mm = *plate.plate_height_mm + 50;
        plate.depth_mm = 300;
    }
    return plate;
}

struct Rect {
    double left, top, right, bottom;
};

Rect rect_of(const PlacedDevice& device) {
    const OptionalRule& side = starter_rules().room.supply.side_mm;
    const double more = device.band == "supply" && side ? side->number() : 0;
    return {device.x_mm - more, device.y_mm, device.x_mm + device.width_mm + more,
            device.y_mm + device.height_mm};
}

bool overlap(const Rect& a, const Rect& b) {
    constexpr double slack = 1e-6;
    return a.left < b.right - slack && b.left < a.right - slack && a.top < b.bottom - slack &&
           b.top < a.bottom - slack;
}

bool low_voltage(const PlacedDevice& device) {
    return device.band == "platform" || device.band == "other";
}

/// Rows stand below one another on their plate, each with a duct above and below, none beyond it.
std::string row_fault(const Layout& layout, int plates) {
    constexpr double slack = 1e-6;
    int plate = 0;
    double next = layout.duct_mm;
    for (const LayoutRow& row : layout.rows) {
        if (row.enclosure < plate || row.enclosure >= plates) return "a row is on no plate";
        if (row.enclosure > plate) next = layout.duct_mm;
        plate = row.enclosure;
        if (row.y_mm < next - slack) return "a row stands in the duct above it";
        next = row.y_mm + row.height_mm + layout.duct_mm;
        if (row.used_mm > layout.rail_mm + slack || next > layout.plate_height_mm + slack)
            return "a row is too long or too low";
        const FreePlate& free = layout.free.at(static_cast<std::size_t>(plate));
        if (free.y_mm + free.height_mm > layout.plate_height_mm + slack)
            return "the free plate is too low";
    }
    return layout.free.size() == static_cast<std::size_t>(plates) ? "" : "a plate is missing";
}

/// What is wrong with a layout, in words; empty: nothing.
std::string fault_of(const RandomPanel& panel, const Layout& layout) {
    constexpr double slack = 1e-6;
    std::map<std::string, std::int64_t> placed;
    for (std::size_t i = 0; i < layout.devices.size(); ++i) {
        const PlacedDevice& device = layout.devices[i];
        ++placed[device.part];
        const LayoutRow& row = layout.rows.at(static_cast<std::size_t>(device.row));
        const Rect own = rect_of(device);
        if (own.left < layout.rail_x_mm - slack ||
            own.right > layout.rail_x_mm + layout.rail_mm + slack)
            return device.id + " leaves its rail";
        if (device.enclosure != row.enclosure) return device.id + " is beside its plate";
        if (own.top < row.y_mm - slack || own.bottom > row.y_mm + row.height_mm + slack)
            return device.id + " leaves its row";
        for (std::size_t j = 0; j < i; ++j) {
            if (layout.devices[j].row != device.row) continue;
            const Rect other = rect_of(layout.devices[j]);
            if (overlap(own, other)) return device.id + " overlaps " + layout.devices[j].id;
            const bool apart = (device.band == "mains" && low_voltage(layout.devices[j])) ||
                               (layout.devices[j].band == "mains" && low_voltage(device));
            const double gap = std::max(other.left - own.right, own.left - other.right);
            if (apart && gap < starter_rules().room.sharings.front().gap_mm - slack)
                return device.id + " is too near to " + layout.devices[j].id;
        }
    }
    for (const BillItem& item : panel.design.bill) placed[item.part->key] -= item.quantity;
    for (const TerminalCount& count : panel.design.terminal_counts)
        placed[count.part->key] -= count.pieces;
    for (const auto& [part, more] : placed)
        if (more != 0) return part + " is drawn " + std::to_string(more) + " times too often";
    return row_fault(layout, panel.design.enclosure.pieces);
}

/// Occupied rail as the room rule counts it, and what is free: the reserve is real.
bool reserve_is_free(const RandomPanel& panel, const Layout& layout) {
    double occupied = 0, used = 0;
    for (const BandNeed& band : panel.design.need.bands)
        occupied += static_cast<double>(band.width) / 10;
    for (const LayoutRow& row : layout.rows) used += row.used_mm;
    const double rails = layout.rail_mm * static_cast<double>(layout.rows.size());
    return rails - occupied >= occupied * panel.reserve.fraction() - 1e-6;
}

std::string order_fault(const RandomPanel& panel, const Layout& layout) {
    std::size_t station = 0, place = 0;
    int row = 0, breaks = 0;
    double x = -1;
    const auto& stations = panel.design.arrangement->stations;
    for (const PlacedDevice& device : layout.devices) {
        if (device.station < 0) continue;
        if (device.station != static_cast<int>(station) || device.place != static_cast<int>(place))
            return device.id + " stands out of the order of its bus";
        if (device.row < row || (device.row == row && device.x_mm < x))
            return device.id + " stands before the one that it plugs into";
        const bool joined = place > 0 && stations[station].places[place].part->bus_ma > 0;
        breaks += joined && device.row != row ? 1 : 0;
        row = device.row;
        x = device.x_mm;
        if (++place == stations[station].places.size()) ++station, place = 0;
    }
    if (breaks != static_cast<int>(layout.breaks.size())) return "a broken station is not said";
    return station == stations.size() ? "" : "a station is missing";
}

} // namespace

TEST_CASE("what the room rule lets in has a place: nothing overlaps or leaves its rail") {
    Draws draws(79);
    int judged = 0, devices = 0, broken = 0, strips = 0, suites = 0, crossing = 0;
    for (int i = 0; i < 12000; ++i) {
        RandomPanel panel;
        fill(panel, draws);
        const Part plate = random_plate(draws);
        const Suite suite(plate, draws.chance(30) ? draws.between(2, 4) : 1);
        panel.design.enclosure = suite;
        panel.design.need = room_need(panel.design, panel.search);
        const auto plan = room_plan(panel.design.need, suite, panel.reserve, starter_rules().room);
        if (!plan) continue;
        panel.design.room = *plan;
        CAPTURE(i);
        const Layout layout = lay_out(panel.design, panel.search);
        const std::string fault = fault_of(panel, layout);
        if (!fault.empty()) FAIL("panel " << i << ": " << fault);
        const std::string order = order_fault(panel, layout);
        if (!order.empty()) FAIL("panel " << i << ": " << order);
        if (!reserve_is_free(panel, layout)) FAIL("panel " << i << ": the reserve is not free");
        ++judged;
        devices += static_cast<int>(layout.devices.size());
        broken += layout.breaks.empty() ? 0 : 1;
        strips += static_cast<int>(layout.strips.size());
        suites += suite.pieces > 1 ? 1 : 0;
        crossing += layout.rows.back().enclosure > 0 ? 1 : 0;
    }
    std::cout << "layout: " << judged << " random panels judged with " << devices << " devices, "
              << strips << " strips, " << broken << " with a broken station; " << suites
              << " suites, " << crossing << " on more than one plate\n";
    CHECK(judged >= 3000);
    CHECK(broken >= 20);
    CHECK(crossing >= 300);
}
