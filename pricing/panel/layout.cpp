#include "pricing/panel/layout.h"

#include <algorithm>
#include <stdexcept>

#include "pricing/panel/devices.h"
#include "pricing/panel/row_breaks.h"

namespace backplate {
namespace {

double millimetres(std::int64_t tenths) { return static_cast<double>(tenths) / 10; }

/// First row of every group, from the top down and plate by plate; what is left of a plate lies
/// below its last duct, where the cables come in.
std::array<std::size_t, 5> make_rows(Layout& layout, const RoomPlan& plan) {
    std::array<std::size_t, 5> first{};
    const auto of_terminals = static_cast<std::size_t>(plan.group[4]);
    PlateRows fill(limit_in(layout.plate_height_mm, 0.1), plan.duct);
    layout.free.assign(static_cast<std::size_t>(plan.plates),
                       {millimetres(plan.duct), layout.plate_height_mm - millimetres(plan.duct)});
    for (int group = 0; group < plan.groups; ++group) {
        const auto at = static_cast<std::size_t>(group);
        first[at] = layout.rows.size();
        for (int row = 0; row < plan.rows[at]; ++row) {
            fill.add(plan.row_height[at]);
            layout.rows.push_back({fill.plate(), millimetres(fill.top()),
                                   millimetres(plan.row_height[at]), 0, at == of_terminals});
            const double below = millimetres(fill.below());
            layout.free.at(static_cast<std::size_t>(fill.plate())) = {
                below, std::max(0.0, layout.plate_height_mm - below)};
        }
    }
    return first;
}

/// Devices that share rows, with the partition between mains and extra-low voltage as a piece.
std::vector<RowPiece> pieces_of(const std::vector<RailDevice*>& devices, double gap_mm,
                                std::size_t& partition) {
    std::vector<RowPiece> pieces;
    partition = devices.size();
    const bool mains = !devices.empty() && devices.front()->band == Band::mains;
    for (std::size_t i = 0; i < devices.size(); ++i) {
        const RailDevice& device = *devices[i];
        const bool low = device.band == Band::platform || device.band == Band::other;
        if (mains && low && i > 0 && devices[i - 1]->band < Band::platform) {
            partition = i;
            pieces.push_back({tenths(gap_mm), false});
        }
        pieces.push_back({tenths(device.device.width_mm + 2 * device.side_mm), device.joined});
    }
    return pieces;
}

void note_break(Layout& layout, const RailDevice& device) {
    layout.breaks.push_back({device.device.station, device.device.row});
}

/// Stands the devices of one group on its rows, in their order; false where these are too few.
bool place_group(Layout& layout, const std::vector<RailDevice*>& devices, std::size_t first_row,
                 int rows, double gap_mm) {
    std::size_t partition = 0;
    const auto pieces = pieces_of(devices, gap_mm, partition);
    const auto row_of = break_rows(pieces, tenths(layout.rail_mm), rows);
    if (!row_of) return false;
    for (std::size_t i = 0, piece = 0; i < devices.size(); ++i, ++piece) {
        if (i == partition) layout.rows.at(first_row + (*row_of)[piece++]).used_mm += gap_mm;
        RailDevice& device = *devices[i];
        const std::size_t at = first_row + static_cast<std::size_t>((*row_of)[piece]);
        LayoutRow& row = layout.rows.at(at);
        PlacedDevice& placed = device.device;
        placed.row = static_cast<int>(at);
        placed.enclosure = row.enclosure;
        placed.x_mm = layout.rail_x_mm + row.used_mm + device.side_mm;
        placed.y_mm = row.y_mm + (row.height_mm - placed.height_mm) / 2;
        row.used_mm += placed.width_mm + 2 * device.side_mm;
        if (device.joined && i > 0 && devices[i - 1]->device.row != placed.row)
            note_break(layout, device);
        layout.devices.push_back(placed);
    }
    return true;
}

double gap_of(const RoomPlan& plan, const RoomRules& rules) {
    const bool shared = plan.group[0] == plan.group[2] || plan.group[0] == plan.group[3];
    return shared && !rules.sharings.empty() ? rules.sharings.front().gap_mm : 0;
}

bool place_on_rails(Layout& layout, const PanelDesign& design, const SearchFacts& search) {
    const RoomRules& rules = search.rules->room;
    const RoomPlan& plan = design.room;
    auto devices = rail_devices(design, search);
    const auto first = make_rows(layout, plan);
    for (int group = 0; group < plan.groups; ++group) {
        const auto at = static_cast<std::size_t>(group);
        std::vector<RailDevice*> own;
        for (RailDevice& device : devices)
            if (plan.group[static_cast<std::size_t>(device.band)] == group) own.push_back(&device);
        if (!place_group(layout, own, first[at], plan.rows[at], gap_of(plan, rules))) return false;
    }
    name_devices(layout.devices);
    return place_terminals(layout, strip_terminals(design, search),
                           first[static_cast<std::size_t>(plan.group[4])], rules);
}

void place_elsewhere(Layout& layout, const PanelDesign& design, const RoomRules& rules) {
    auto devices = other_devices(design);
    const Part& enclosure = *design.enclosure;
    if (enclosure.width_mm && enclosure.height_mm)
        place_in_doors(devices, design.enclosure.pieces, *enclosure.width_mm, *enclosure.height_mm,
                       rules);
    layout.devices.insert(layout.devices.end(), devices.begin(), devices.end());
}

} // namespace

std::optional<Layout> try_lay_out(const PanelDesign& design, const SearchFacts& search) {
    const RoomRules& rules = search.rules->room;
    Layout layout;
    layout.plate_width_mm = design.enclosure->plate_width_mm.value_or(0);
    layout.plate_height_mm = design.enclosure->plate_height_mm.value_or(0);
    layout.duct_mm = millimetres(design.room.duct);
    layout.rail_mm = millimetres(design.room.rail);
    layout.rail_x_mm = layout.duct_mm + rules.side_each_mm.number();
    layout.deepest_mm = design.need.deepest_mm;
    layout.deepest_door_mm = design.need.deepest_door_mm;
    layout.usable_depth_mm = usable_depth(*design.enclosure, rules);
    if (!place_on_rails(layout, design, search)) return std::nullopt;
    place_elsewhere(layout, design, rules);
    name_devices(layout.devices);
    return layout;
}

int bus_breaks(const PanelDesign& design, const SearchFacts& search) {
    const auto of_platform =
        static_cast<std::size_t>(design.room.group[static_cast<std::size_t>(Band::platform)]);
    if (design.room.rows[of_platform] < 2) return 0;
    const auto layout = try_lay_out(design, search);
    return layout ? static_cast<int>(layout->breaks.size()) : 0;
}

Layout lay_out(const PanelDesign& design, const SearchFacts& search) {
    auto layout = try_lay_out(design, search);
    if (!layout) throw std::logic_error("the layout needs more rows than the room rule gives");
    return *std::move(layout);
}

} // namespace backplate
