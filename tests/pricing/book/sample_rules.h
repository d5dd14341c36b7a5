#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "pricing/book/rule_tables.h"

namespace backplate::sample {

using Cells = std::vector<std::pair<std::string, std::string>>;

/// A row with some of its cells; the others are empty.
inline RuleRow row(std::string_view table, std::string key, const Cells& cells) {
    RuleRow result{std::move(key), {}, "test", "", "", true};
    for (const ColumnSpec& column : find_table_spec(table)->columns) {
        std::string text;
        for (const auto& [name, value] : cells)
            if (name == column.key) text = value;
        result.cells.push_back(text);
    }
    return result;
}

inline void add(RuleTables& tables, std::string_view table, std::string key, const Cells& cells) {
    tables.table(table).rows.push_back(row(table, std::move(key), cells));
}

inline void add_values(RuleTables& tables, std::string_view table,
                       const std::vector<std::pair<const char*, const char*>>& rows) {
    for (const auto& [key, value] : rows) add(tables, table, key, {{"value", value}});
}

inline void add_site(RuleTables& tables) {
    add_values(tables, "solar",
               {{"irradiance", "1000"}, {"outer_film", "12"}, {"finish unknown", "0.9"}});
    add_values(tables, "faces",
               {{"top", "1.4"},
                {"top_covered", "0.7"},
                {"side", "0.9"},
                {"side_covered", "0.5"},
                {"floor", "0"}});
}

inline void add_figures(RuleTables& tables) {
    add_values(tables, "terminals",
               {{"DI contact", "2"}, {"incoming", "3"}, {"distribution", "12"}});
    add_values(tables, "wires",
               {{"per box", "30"}, {"per module", "3"}, {"per device", "2"}, {"length", "1.2"}});
    add_values(tables, "protection", {{"distribution_channels", "3"}});
    add_values(tables, "supply",
               {{"volts", "24"},
                {"utilisation", "0.8"},
                {"knee_c", "50"},
                {"slope_percent_per_k", "2.5"},
                {"altitude_knee_m", "2000"},
                {"power_factor", "0.6"}});
    add_values(tables, "supply_loss", {{"l0", "0.012"}, {"l1", "0.025"}, {"l2", "0.025"}});
    add_values(tables, "heat",
               {{"loop_resistance", "250"},
                {"loop_current", "0.020"},
                {"top_factor", "1.25"},
                {"reserve_k", "5"},
                {"circulation_factor", "0.71"},
                {"surface_u", "4.0"}});
    add_values(tables, "heating", {{"humidity_percent", "60"}, {"outdoor_factor", "2"}});
    add_values(tables, "room", {{"duct_and_clearance_mm", "60"}});
    add_values(tables, "wiring", {{"incoming_conductor", "1.5 mm²"}});
    add_values(tables, "rates", {{"shop", "52.00"}});
    add_values(tables, "delivery", {{"shop_hours_per_week", "30"}, {"test_weeks", "1"}});
    add_values(tables, "price_policy",
               {{"freight_percent", "2"},
                {"overhead", "12"},
                {"round_up_to", "10.00"},
                {"sundries_percent", "4"},
                {"material_low_percent", "97"},
                {"material_high_percent", "110"},
                {"margin", "20"},
                {"currency", "EUR"}});
    add_values(tables, "risk", {{"labour_correlation", "0.3"}});
}

inline void add_lists(RuleTables& tables) {
    add(tables, "signals", "DI",
        {{"meaning", "input"},
         {"wiring", "contact"},
         {"fed_from_box", "yes"},
         {"power", "input"},
         {"work_class", "digital"},
         {"level", "extra-low"},
         {"special", "no"},
         {"shielded", "no"}});
    add(tables, "breaker_ratings", "iec 6", {{"practice", "iec"}, {"ampere", "6"}});
    add(tables, "breaker_ratings", "na 15", {{"practice", "north_america"}, {"ampere", "15"}});
    add(tables, "conductors", "iec 1.5",
        {{"practice", "iec"},
         {"size", "1.5 mm²"},
         {"cross_section_mm2", "1.5"},
         {"ampacity", "13.5"}});
    add(tables, "words", "a", {{"key", "#labour[].activity"}, {"word", "mounting"}});
    add(tables, "words", "c", {{"key", "#labour[].class"}, {"word", "shop"}});
    add(tables, "defaults", "commercial.margin_percent",
        {{"type", "percent"},
         {"default_iec", "rule:price_policy/margin"},
         {"default_north_america", "rule:price_policy/margin"},
         {"assumption", "no"}});
    add(tables, "hours", "mount_module",
        {{"value", "10"},
         {"unit", "min"},
         {"activity", "mounting"},
         {"class", "shop"},
         {"driver", "module"},
         {"count", "each"},
         {"learning", "yes"},
         {"condition", "always"}});
}

/// The least that makes a rule book: figures invented except where they are the usual ones.
inline RuleTables rules() {
    RuleTables tables;
    add_figures(tables);
    add_site(tables);
    add_lists(tables);
    return tables;
}

inline RuleRow& row_of(RuleTables& tables, std::string_view table, std::string_view key) {
    for (RuleRow& row : tables.table(table).rows)
        if (row.key == key) return row;
    throw std::out_of_range(std::string(key));
}

inline void set(RuleTables& tables, std::string_view table, std::string_view key,
                std::string_view column, std::string text) {
    const auto columns = find_table_spec(table)->columns;
    for (std::size_t i = 0; i < columns.size(); ++i)
        if (columns[i].key == column) row_of(tables, table, key).cells[i] = std::move(text);
}

} // namespace backplate::sample
