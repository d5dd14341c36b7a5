#include <algorithm>
#include <array>

#include "pricing/book/rule_reader.h"

namespace backplate {
namespace {

constexpr std::string_view table = "room";
constexpr std::string_view duct_prefix = "duct ";
constexpr std::string_view sharing_prefix = "sharing ";

RoomBand band_of(RuleReader& reader, const std::string& name) {
    return {reader.optional(table, name + "_row_mm"), reader.optional(table, name + "_side_mm"),
            reader.optional(table, name + "_air_mm")};
}

/// "A|BC|D": every band once, in their order.
bool is_sharing(std::string_view key) {
    std::string bands;
    for (const char c : key)
        if (c != '|') bands += c;
    return bands == "ABCD";
}

void read_ducts(RuleReader& reader, RoomRules& room) {
    for (const RowView& row : reader.rows(table)) {
        if (!row.key().starts_with(duct_prefix)) continue;
        if (!row.number("value") || !row.number("high"))
            reader.fault(table, row.key(), "high", "expected the width and the wires it holds");
        room.duct_widths.push_back(row.value_rule());
    }
    std::stable_sort(room.duct_widths.begin(), room.duct_widths.end(),
                     [](const Rule& a, const Rule& b) { return a.number() < b.number(); });
}

void read_sharings(RuleReader& reader, RoomRules& room) {
    const OptionalRule gap = reader.optional(table, "sharing_gap_mm");
    for (const RowView& row : reader.rows(table)) {
        if (!row.key().starts_with(sharing_prefix)) continue;
        const std::string key = row.key().substr(sharing_prefix.size());
        if (!is_sharing(key))
            reader.fault(table, row.key(), "row", "expected bands A, B, C, D parted by |");
        if (!row.number("value"))
            reader.fault(table, row.key(), "value", "expected the most rows, 0 for any number");
        room.sharings.push_back({key, row.value_rule(), gap ? gap->number() : 0});
    }
}

bool is_set(const OptionalRule& rule) { return rule && rule->number() != 0; }

} // namespace

void read_room(RuleReader& reader, RuleBook& book) {
    RoomRules& room = book.room;
    room.side_each_mm = reader.required(table, "duct_and_clearance_mm");
    room.device_row_mm = reader.optional(table, "device_row_mm");
    room.mains = band_of(reader, "mains");
    room.supply = band_of(reader, "supply");
    room.platform = band_of(reader, "platform");
    room.other = band_of(reader, "other");
    room.terminals = band_of(reader, "terminal");
    room.strip_ends_mm = reader.optional(table, "strip_ends_mm");
    room.terminals_per_strip = reader.optional(table, "terminals_per_strip");
    room.one_row_if_it_fits = is_set(reader.optional(table, "one_row_if_it_fits"));
    read_ducts(reader, room);
    room.duct_fill_share = reader.optional(table, "duct_fill_share");
    room.least_duct_wall_mm = reader.optional(table, "least_duct_wall_mm");
    room.least_duct_floor_mm = reader.optional(table, "least_duct_floor_mm");
    read_sharings(reader, room);
    room.door_air_mm = reader.optional(table, "door_air_mm");
    room.door_margin_mm = reader.optional(table, "door_margin_mm");
    room.door_gap_mm = reader.optional(table, "door_gap_mm");
    room.rail_height_mm = reader.optional(table, "rail_height_mm");
    room.stand_off_wall_mm = reader.optional(table, "stand_off_wall_mm");
    room.stand_off_floor_mm = reader.optional(table, "stand_off_floor_mm");
}

void read_suites(RuleReader& reader, RuleBook& book) {
    constexpr std::string_view suites = "suites";
    book.suites = {
        reader.optional(suites, "most_enclosures"), reader.optional(suites, "floor_enclosures"),
        reader.optional(suites, "wall_boxes"), reader.optional(suites, "heat_of_fullest_percent")};
}

} // namespace backplate
