#include <algorithm>

#include "pricing/book/rule_reader.h"

namespace backplate {
namespace {

void check_columns(RuleReader& reader, const RuleBook& book, const RowView& row) {
    for (const std::string& column : row.list("columns")) {
        const bool known =
            std::any_of(book.conductors.begin(), book.conductors.end(), [&](const Conductor& each) {
                return each.practice == row.cell("practice") && each.column == column;
            });
        if (!known)
            reader.fault("grouping_factors", row.key(), "columns",
                         "'" + column + "', expected columns of the table conductors for " +
                             row.cell("practice"));
    }
}

void read_factors(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("grouping_factors")) {
        check_columns(reader, book, row);
        book.grouping_factors.push_back({row.cell("practice"), row.list("columns"),
                                         static_cast<int>(row.number("up_to")->number()),
                                         row.rule("factor", "")});
    }
    std::stable_sort(
        book.grouping_factors.begin(), book.grouping_factors.end(),
        [](const GroupingFactor& a, const GroupingFactor& b) { return a.up_to < b.up_to; });
}

void read_bending(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("bending_space"))
        book.bending_spaces.push_back(
            {row.cell("practice"), row.number("up_to_mm2")->number(), row.rule("space_mm", "mm")});
    std::stable_sort(
        book.bending_spaces.begin(), book.bending_spaces.end(),
        [](const BendingSpace& a, const BendingSpace& b) { return a.up_to_mm2 < b.up_to_mm2; });
}

} // namespace

void read_grouping(RuleReader& reader, RuleBook& book) {
    read_factors(reader, book);
    read_bending(reader, book);
    const auto row = [&](std::string_view key) { return reader.optional("wires_together", key); };
    WiresTogether& together = book.wires_together;
    together.feeds = row("feeds");
    together.neutral = row("neutral");
    together.supplies = row("supplies");
    together.beside_feed_iec = row("beside_feed_iec");
    together.beside_feed_north_america = row("beside_feed_north_america");
    together.beside_supply_iec = row("beside_supply_iec");
    together.beside_supply_north_america = row("beside_supply_north_america");
    together.inside_air_iec = row("inside_air_iec");
    together.inside_air_north_america = row("inside_air_north_america");
}

} // namespace backplate
