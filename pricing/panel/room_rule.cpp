#include "pricing/panel/room_rule.h"

#include <algorithm>

namespace backplate {
namespace {

using Widths = std::array<std::int64_t, 5>;

constexpr std::size_t index_of(Band band) { return static_cast<std::size_t>(band); }

std::int64_t with_reserve(std::int64_t width, Percent reserve) {
    return multiply_divide(width, Percent::whole(100).steps() + reserve.steps(),
                           Percent::whole(100).steps(), Rounding::up);
}

/// "A|BC|D" -> group number by band; mains and supplies are A, platform B, other C, terminals D.
std::array<int, 5> groups_of(const std::string& key) {
    std::array<int, 5> result{};
    int group = 0;
    for (const char c : key) {
        if (c == '|') ++group;
        if (c == 'A') result[index_of(Band::mains)] = result[index_of(Band::supply)] = group;
        if (c == 'B') result[index_of(Band::platform)] = group;
        if (c == 'C') result[index_of(Band::other)] = group;
        if (c == 'D') result[index_of(Band::terminals)] = group;
    }
    return result;
}

const RoomBand& band_rules(const RoomRules& rules, std::size_t band) {
    const std::array<const RoomBand*, 5> all{&rules.mains, &rules.supply, &rules.platform,
                                             &rules.other, &rules.terminals};
    return *all[band];
}

/// Height of a row that holds devices of the band: as the rules say, more where a device with its
/// air above and below is taller, or a conductor bends in more.
std::int64_t height_of(const RoomRules& rules, std::size_t band, const BandNeed& need) {
    const RoomBand& own = band_rules(rules, band);
    const OptionalRule& row = own.row_mm ? own.row_mm : rules.device_row_mm;
    const std::int64_t air = own.air_mm ? 2 * tenths(own.air_mm->number()) : 0;
    return std::max({row ? tenths(row->number()) : 0, need.tallest + air, need.bent});
}

/// Wires and cores that meet in one duct.
std::int64_t wires_in_duct(const RoomNeed& need, const RoomRules& rules) {
    const std::int64_t share = rules.duct_fill_share
                                   ? round_to_steps(rules.duct_fill_share->value, 4, Rounding::up)
                                   : Percent::whole(100).steps();
    return multiply_divide(need.wires_and_cores, share, Percent::whole(100).steps(), Rounding::up);
}

/// The narrowest width not below the least of the mounting that holds its share of the wires.
std::int64_t duct_width(const RoomNeed& need, bool floor, const RoomRules& rules) {
    if (rules.duct_widths.empty()) return 0;
    const OptionalRule& row = floor ? rules.least_duct_floor_mm : rules.least_duct_wall_mm;
    const double least = row ? row->number() : 0;
    const std::int64_t wires = wires_in_duct(need, rules);
    for (const Rule& width : rules.duct_widths)
        if (width.number() >= least && wires <= limit_in(width.high_number(), 1))
            return tenths(width.number());
    return tenths(rules.duct_widths.back().number());
}

int rows_for(std::int64_t width, std::int64_t widest, std::int64_t rail, bool one_if_it_fits) {
    if (width == 0) return 0;
    if (one_if_it_fits && width <= rail) return 1;
    const std::int64_t each = rail - widest;
    return static_cast<int>((width + each - 1) / each);
}

} // namespace

std::int64_t tenths(double millimetres) { return need_in(millimetres, 0.1); }

bool PlateRows::add(std::int64_t row_height) {
    if (next_ + row_height + duct_ > height_) {
        if (row_height + 2 * duct_ > height_) return false;
        ++plate_;
        next_ = duct_;
    }
    top_ = next_;
    next_ += row_height + duct_;
    return true;
}

RoomDemand::RoomDemand(const RoomNeed& need, Percent reserve, const RoomRules& rules)
    : duct_wall_(duct_width(need, false, rules)), duct_floor_(duct_width(need, true, rules)),
      sides_(2 * tenths(rules.side_each_mm.number())), one_if_it_fits_(rules.one_row_if_it_fits) {
    const auto add = [&](const std::string& key, int most, std::int64_t gap) {
        sharings_.push_back(sharing_of(need, groups_of(key), reserve, gap, rules));
        sharings_.back().most = most;
    };
    if (rules.sharings.empty()) add("ABC|D", 0, 0);
    for (const RoomSharing& sharing : rules.sharings)
        add(sharing.key, static_cast<int>(sharing.most_rows.number()), tenths(sharing.gap_mm));
}

RoomDemand::Sharing RoomDemand::sharing_of(const RoomNeed& need, const std::array<int, 5>& groups,
                                           Percent reserve, std::int64_t gap,
                                           const RoomRules& rules) {
    Sharing sharing;
    sharing.group = groups;
    sharing.groups = 1 + *std::max_element(groups.begin(), groups.end());
    std::array<bool, 5> mains{}, low_voltage{};
    const std::int64_t own_strip = need.bands[index_of(Band::terminals)].partition;
    const std::int64_t strip_of_mains = own_strip > 0 ? own_strip + gap : 0;
    for (std::size_t band = 0; band < groups.size(); ++band) {
        if (need.bands[band].width == 0) continue;
        const auto at = static_cast<std::size_t>(groups[band]);
        Group& group = sharing.needs[at];
        group.occupied += need.bands[band].width;
        group.widest = std::max(group.widest, need.bands[band].widest);
        group.height = std::max(group.height, height_of(rules, band, need.bands[band]));
        group.devices = group.devices || band != index_of(Band::terminals);
        mains[at] = mains[at] || band == index_of(Band::mains);
        low_voltage[at] =
            low_voltage[at] || band == index_of(Band::platform) || band == index_of(Band::other);
    }
    for (std::size_t at = 0; at < sharing.needs.size(); ++at) {
        Group& group = sharing.needs[at];
        const bool strips = at == static_cast<std::size_t>(groups[index_of(Band::terminals)]);
        const std::int64_t partition =
            (mains[at] && low_voltage[at] ? gap : 0) + (strips ? strip_of_mains : 0);
        group.width = group.occupied ? with_reserve(group.occupied, reserve) + partition : 0;
    }
    return sharing;
}

std::optional<RoomPlan> RoomDemand::divide(const Sharing& sharing, PlateRows fill, int plates,
                                           std::int64_t rail, std::int64_t duct) const {
    RoomPlan plan;
    plan.group = sharing.group;
    plan.plates = plates;
    plan.duct = duct;
    plan.rail = rail;
    std::int64_t occupied = 0;
    for (; plan.groups < sharing.groups; ++plan.groups) {
        const auto at = static_cast<std::size_t>(plan.groups);
        const Group& group = sharing.needs[at];
        if (group.occupied > 0 && rail <= group.widest) return std::nullopt;
        const int rows = rows_for(group.width, group.widest, rail, one_if_it_fits_);
        plan.rows[at] = rows;
        plan.row_height[at] = group.height;
        plan.total_rows += rows;
        plan.used_height += rows * group.height;
        occupied += group.occupied;
        if (sharing.most > 0 && group.devices && rows > sharing.most) return std::nullopt;
        for (int row = 0; row < rows; ++row)
            if (!fill.add(group.height) || fill.plate() >= plates) return std::nullopt;
    }
    plan.used_height += (plan.total_rows + plates) * duct;
    if (occupied == 0) return std::nullopt;
    plan.room_left_percent = static_cast<double>(plan.total_rows * rail - occupied) * 100.0 /
                             static_cast<double>(occupied);
    return plan;
}

std::optional<RoomPlan> RoomDemand::on(const Suite& enclosure) const {
    const std::int64_t duct = enclosure->mounting == "floor" ? duct_floor_ : duct_wall_;
    const PlateRows empty(limit_in(enclosure->plate_height_mm.value_or(0), 0.1), duct);
    const std::int64_t rail = rail_on(*enclosure);
    std::optional<RoomPlan> best;
    for (const Sharing& sharing : sharings_) {
        auto plan = divide(sharing, empty, enclosure.pieces, rail, duct);
        if (plan && (!best || plan->used_height < best->used_height)) best = plan;
    }
    return best;
}

std::int64_t RoomDemand::rail_on(const Part& enclosure) const {
    const std::int64_t duct = enclosure.mounting == "floor" ? duct_floor_ : duct_wall_;
    return limit_in(enclosure.plate_width_mm.value_or(0), 0.1) - 2 * duct - sides_;
}

std::optional<RoomPlan> room_plan(const RoomNeed& need, const Suite& enclosure, Percent reserve,
                                  const RoomRules& rules) {
    return RoomDemand(need, reserve, rules).on(enclosure);
}

std::optional<RoomPlan> exact_room(const RoomNeed& need, const std::vector<std::int64_t>& widths,
                                   const Part& enclosure, Percent reserve, const RoomRules& rules) {
    RoomNeed free = need;
    for (BandNeed& band : free.bands) band.widest = 0;
    RoomRules exact = rules;
    exact.one_row_if_it_fits = true;
    const RoomDemand demand(free, reserve, exact);
    if (!widths.empty() &&
        *std::max_element(widths.begin(), widths.end()) > demand.rail_on(enclosure))
        return std::nullopt;
    return demand.on(enclosure);
}

std::optional<double> usable_depth(const Part& enclosure, const RoomRules& rules) {
    if (enclosure.usable_depth_mm) return enclosure.usable_depth_mm;
    if (!enclosure.depth_mm) return std::nullopt;
    const OptionalRule& stand_off =
        enclosure.mounting == "floor" ? rules.stand_off_floor_mm : rules.stand_off_wall_mm;
    return *enclosure.depth_mm - (stand_off ? stand_off->number() : 0);
}

std::optional<DuctOverfill> duct_overfill(const RoomNeed& need, const RoomRules& rules) {
    if (rules.duct_widths.empty()) return std::nullopt;
    const Rule& widest = rules.duct_widths.back();
    const DuctOverfill found{wires_in_duct(need, rules), limit_in(widest.high_number(), 1),
                             widest.number()};
    return found.wires > found.holds ? std::optional(found) : std::nullopt;
}

bool deep_enough(const RoomNeed& need, const Part& enclosure, const RoomRules& rules) {
    const auto usable = usable_depth(enclosure, rules);
    if (!usable) return true; // a bare plate
    const double rail = rules.rail_height_mm ? rules.rail_height_mm->number() : 0;
    const double air = rules.door_air_mm ? rules.door_air_mm->number() : 0;
    return rail + need.deepest_mm + need.deepest_door_mm + air <= *usable;
}

} // namespace backplate
