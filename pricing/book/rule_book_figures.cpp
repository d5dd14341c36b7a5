#include <algorithm>
#include <array>

#include "pricing/book/rule_reader.h"

namespace backplate {
namespace {

template <class Group> struct RequiredRow {
    Rule Group::*member;
    std::string_view row;
};

template <class Group> struct OptionalRow {
    OptionalRule Group::*member;
    std::string_view row;
};

template <class Group, std::size_t count>
void read_rows(RuleReader& reader, std::string_view table, Group& group,
               const std::array<RequiredRow<Group>, count>& rows) {
    for (const RequiredRow<Group>& each : rows)
        group.*each.member = reader.required(table, each.row);
}

template <class Group, std::size_t count>
void read_rows(RuleReader& reader, std::string_view table, Group& group,
               const std::array<OptionalRow<Group>, count>& rows) {
    for (const OptionalRow<Group>& each : rows)
        group.*each.member = reader.optional(table, each.row);
}

using SupplyRow = RequiredRow<SupplyRules>;
constexpr auto supply_rows =
    std::array{SupplyRow{&SupplyRules::volts, "volts"},
               SupplyRow{&SupplyRules::utilisation, "utilisation"},
               SupplyRow{&SupplyRules::knee_c, "knee_c"},
               SupplyRow{&SupplyRules::slope_percent_per_k, "slope_percent_per_k"},
               SupplyRow{&SupplyRules::altitude_knee_m, "altitude_knee_m"},
               SupplyRow{&SupplyRules::power_factor, "power_factor"}};

using TransformerRow = RequiredRow<TransformerRules>;
constexpr auto transformer_rows =
    std::array{TransformerRow{&TransformerRules::inrush_factor, "inrush_factor"},
               TransformerRow{&TransformerRules::inrush_multiple, "inrush_multiple"},
               TransformerRow{&TransformerRules::loss_percent, "loss_percent"},
               TransformerRow{&TransformerRules::secondary_protection, "secondary_protection"},
               TransformerRow{&TransformerRules::high_from_a, "high_from_a"},
               TransformerRow{&TransformerRules::low_below_a, "low_below_a"},
               TransformerRow{&TransformerRules::alone_high_percent, "alone_high_percent"},
               TransformerRow{&TransformerRules::alone_percent, "alone_percent"},
               TransformerRow{&TransformerRules::alone_low_percent, "alone_low_percent"},
               TransformerRow{&TransformerRules::primary_percent, "primary_percent"},
               TransformerRow{&TransformerRules::secondary_high_percent, "secondary_high_percent"},
               TransformerRow{&TransformerRules::secondary_percent, "secondary_percent"},
               TransformerRow{&TransformerRules::round_up_at_percent, "round_up_at_percent"}};

using HeatRow = RequiredRow<HeatRules>;
constexpr auto heat_rows = std::array{HeatRow{&HeatRules::loop_resistance, "loop_resistance"},
                                      HeatRow{&HeatRules::loop_current, "loop_current"},
                                      HeatRow{&HeatRules::top_factor, "top_factor"},
                                      HeatRow{&HeatRules::reserve_k, "reserve_k"},
                                      HeatRow{&HeatRules::circulation_factor, "circulation_factor"},
                                      HeatRow{&HeatRules::surface_u, "surface_u"}};

using HeatingRow = RequiredRow<HeatingRules>;
constexpr auto heating_rows =
    std::array{HeatingRow{&HeatingRules::humidity_percent, "humidity_percent"},
               HeatingRow{&HeatingRules::outdoor_factor, "outdoor_factor"}};

using FurtherHeatRow = OptionalRow<HeatRules>;
constexpr auto further_heat_rows =
    std::array{FurtherHeatRow{&HeatRules::output_drop_v, "output_drop_v"},
               FurtherHeatRow{&HeatRules::inner_film_emissivity, "inner_film_emissivity"},
               FurtherHeatRow{&HeatRules::stirred_film, "stirred_film"},
               FurtherHeatRow{&HeatRules::fouling_factor, "fouling_factor"},
               FurtherHeatRow{&HeatRules::unit_percent_per_k, "unit_percent_per_k"}};

using LossPart = RequiredRow<LossRow>;
constexpr auto loss_parts = std::array{LossPart{&LossRow::l0, "l0"}, LossPart{&LossRow::l1, "l1"},
                                       LossPart{&LossRow::l2, "l2"}};

/// Rows l0, l1, l2 belong to the group of the table's own name, "NAME l0" to the group NAME.
void read_losses(RuleReader& reader, RuleBook& book) {
    const std::string table = "supply_loss";
    for (const RowView& row : reader.rows(table)) {
        const std::size_t blank = row.key().rfind(' ');
        const bool own = blank == std::string::npos;
        const std::string prefix = own ? "" : row.key().substr(0, blank + 1);
        LossRow& loss = book.losses[own ? table : row.key().substr(0, blank)];
        if (loss.l0.id.empty())
            for (const LossPart& part : loss_parts)
                loss.*part.member = reader.required(table, prefix + std::string(part.row));
    }
    if (book.losses.empty()) reader.fault(table, "l0", "", "is missing, expected l0, l1, l2");
}

bool lesser(const Rule& a, const Rule& b) { return a.number() < b.number(); }

void read_ratings(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("breaker_ratings")) {
        const bool iec = row.cell("practice") == "iec";
        const std::string device = row.cell("device"); // absent: a breaker
        const Rule rating = row.rule("ampere", "A");
        if (device != "fuse")
            (iec ? book.breaker_ratings_iec : book.breaker_ratings_north_america).push_back(rating);
        if (device.find("fuse") != std::string::npos)
            (iec ? book.fuse_ratings_iec : book.fuse_ratings_north_america).push_back(rating);
    }
    for (auto* ratings : {&book.breaker_ratings_iec, &book.breaker_ratings_north_america}) {
        if (ratings->empty())
            reader.fault("breaker_ratings", "", "", "expected ratings of both practices");
        std::stable_sort(ratings->begin(), ratings->end(), lesser);
    }
    for (auto* ratings : {&book.fuse_ratings_iec, &book.fuse_ratings_north_america})
        std::stable_sort(ratings->begin(), ratings->end(), lesser);
}

bool has_column(const RuleBook& book, std::string_view practice, const std::string& column) {
    return std::any_of(book.conductors.begin(), book.conductors.end(), [&](const Conductor& each) {
        return each.practice == practice && each.column == column;
    });
}

std::string read_column(RuleReader& reader, const RuleBook& book, std::string_view practice,
                        std::string_view row) {
    const std::optional<RowView> found = reader.row("wiring", row);
    const std::string column = found ? found->cell("value") : "";
    if (!column.empty() && !has_column(book, practice, column))
        reader.fault("wiring", row, "value",
                     "'" + column + "', expected a column of the table conductors for " +
                         std::string(practice));
    return column;
}

void read_columns(RuleReader& reader, RuleBook& book) {
    ConductorColumns& columns = book.conductor_columns;
    const std::string_view american = "north_america";
    columns.iec = read_column(reader, book, "iec", "conductor_column");
    columns.north_america = read_column(reader, book, american, "conductor_column_north_america");
    columns.north_america_above =
        read_column(reader, book, american, "conductor_column_north_america_above");
    columns.north_america_control =
        read_column(reader, book, american, "conductor_column_control_north_america");
    columns.north_america_limit = reader.optional("wiring", "conductor_column_limit");
}

bool has_size(const RuleBook& book, std::string_view practice, const std::string& size) {
    return std::any_of(book.conductors.begin(), book.conductors.end(), [&](const Conductor& each) {
        return each.practice == practice && each.size == size;
    });
}

void check_size(RuleReader& reader, const RuleBook& book, std::string_view practice,
                std::string_view row, const std::string& size) {
    if (!size.empty() && !has_size(book, practice, size))
        reader.fault("wiring", row, "value",
                     "'" + size + "', expected a size of the table conductors for " +
                         std::string(practice));
}

void read_conductors(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("conductors"))
        book.conductors.push_back({row.key(), row.cell("practice"), row.cell("size"),
                                   row.cell("edition"), row.cell("column"),
                                   row.rule("ampacity", "A"), row.rule("cross_section_mm2", "mm²"),
                                   row.number("largest_device")});
    std::stable_sort(
        book.conductors.begin(), book.conductors.end(),
        [](const Conductor& a, const Conductor& b) { return lesser(a.order, b.order); });
    book.smallest_incoming_iec = reader.required_text("wiring", "incoming_conductor");
    check_size(reader, book, "iec", "incoming_conductor", book.smallest_incoming_iec);
    const std::string_view american = "incoming_conductor_north_america";
    if (const std::optional<RowView> row = reader.row("wiring", american))
        book.smallest_incoming_north_america = row->cell("value");
    check_size(reader, book, "north_america", american, book.smallest_incoming_north_america);
    read_columns(reader, book);
}

void read_ambient_factors(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("ambient_factors"))
        book.ambient_factors.push_back({row.cell("practice"), row.number("insulation_c")->number(),
                                        row.number("up_to_c")->number(), row.rule("factor", "")});
    std::stable_sort(
        book.ambient_factors.begin(), book.ambient_factors.end(),
        [](const AmbientFactor& a, const AmbientFactor& b) { return a.up_to_c < b.up_to_c; });
    ConductorColumns& columns = book.conductor_columns;
    columns.insulation_iec = reader.optional("wiring", "insulation_iec");
    columns.insulation_north_america = reader.optional("wiring", "insulation_north_america");
}

/// A number, "own" (only a rating of its own counts) or "none" (not judged).
void read_short_circuit(RuleReader& reader, RuleBook& book) {
    for (const RowView& row : reader.rows("short_circuit")) {
        const std::string value = row.cell("value");
        ShortCircuitRow own;
        own.judged = value != "none";
        if (row.number("value"))
            own.stands_in = row.value_rule();
        else if (value != "none" && value != "own")
            reader.fault("short_circuit", row.key(), "value",
                         "'" + value + "', expected a number in kA, own or none");
        book.short_circuit.emplace(row.key(), std::move(own));
    }
}

struct NeededRow {
    std::string_view table, row;
};

/// Rows without which the counts of a panel would silently lack something.
constexpr auto needed_counts = std::array{NeededRow{"terminals", "incoming"},
                                          NeededRow{"terminals", "distribution"},
                                          NeededRow{"wires", "per box"},
                                          NeededRow{"wires", "per module"},
                                          NeededRow{"wires", "per device"},
                                          NeededRow{"wires", "length"},
                                          NeededRow{"protection", "distribution_channels"}};

void read_supply(RuleReader& reader, RuleBook& book) {
    read_rows(reader, "supply", book.supply, supply_rows);
    book.supply.altitude_percent_per_km = reader.optional("supply", "altitude_percent_per_km");
    book.supply.most_in_parallel = reader.optional("supply", "most_in_parallel");
    book.supply.most_redundant = reader.optional("supply", "most_redundant");
    book.supply.decoupling_inputs = reader.optional("supply", "decoupling_inputs");
    book.supply.input_knee_v = reader.optional("supply", "input_knee_v");
    book.supply.input_percent_per_v = reader.optional("supply", "input_percent_per_v");
    book.supply.spacing_mm = reader.optional("supply", "spacing_mm");
    book.supply.tight_factor = reader.optional("supply", "tight_factor");
    book.supply.nominal_percent = reader.optional("supply", "nominal_percent");
    book.supply.backup_ageing = reader.optional("supply", "backup_ageing");
}

} // namespace

void read_figures(RuleReader& reader, RuleBook& book) {
    for (const NeededRow& each : needed_counts)
        if (!reader.row(each.table, each.row)) reader.required(each.table, each.row);
    book.terminals = reader.all("terminals");
    book.wires = reader.all("wires");
    book.protection = reader.all("protection");
    book.sheets = reader.all("sheets");
    book.rates = reader.all("rates");
    read_supply(reader, book);
    if (!reader.rows("transformers").empty())
        read_rows(reader, "transformers", book.transformers.emplace(), transformer_rows);
    read_losses(reader, book);
    read_rows(reader, "heat", book.heat, heat_rows);
    read_rows(reader, "heat", book.heat, further_heat_rows);
    read_rows(reader, "heating", book.heating, heating_rows);
    read_ratings(reader, book);
    read_conductors(reader, book);
    read_ambient_factors(reader, book);
    read_short_circuit(reader, book);
    book.continuous_factor_north_america = reader.optional("north_america", "continuous_factor");
    book.shop_hours_per_week = reader.required("delivery", "shop_hours_per_week");
    book.test_weeks = reader.required("delivery", "test_weeks");
    book.labour_correlation = reader.required("risk", "labour_correlation");
    book.draws = reader.optional("risk", "draws");
    book.price_steps.share_percent = reader.optional("price_steps", "share_percent");
    book.price_steps.least_points = reader.optional("price_steps", "least_points");
    book.conflicts.most_runs = reader.optional("conflicts", "most_runs");
    book.conflicts.mild_c = reader.optional("conflicts", "mild_c");
    book.conflicts.most_boxes = reader.optional("conflicts", "most_boxes");
    const OptionalRule confirmed = reader.optional("shop", "norms_confirmed");
    book.norms_confirmed = confirmed && confirmed->number() != 0;
}

} // namespace backplate
