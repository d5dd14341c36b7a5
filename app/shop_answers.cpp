#include "app/shop_answers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "pricing/values/decimal.h"
#include "pricing/values/faults.h"
#include "reports/number_format.h"

namespace backplate {
namespace {

bool is_of_workshop(std::string_view work_class) { return work_class == "shop"; }

bool goes_with_shop(std::string_view work_class) {
    return work_class == "shop" || work_class == "test" || work_class == "site";
}

std::optional<std::size_t> column_of(const RuleTable& table, std::string_view key) {
    const TableSpec* spec = find_table_spec(table.name);
    if (!spec) return std::nullopt;
    const auto values = value_columns();
    // tables of values put their own columns behind the common ones
    std::size_t index = 0;
    if (spec->values)
        for (const ColumnSpec& column : values) {
            if (column.key == key) return index;
            ++index;
        }
    for (const ColumnSpec& column : spec->columns) {
        if (column.key == key) return index;
        ++index;
    }
    return std::nullopt;
}

void scale_cell(std::string& cell, double factor, int places) {
    if (const auto number = parse_decimal(cell))
        cell = number_text(number->number() * factor, places);
}

void scale_row(RuleTable& table, RuleRow& row, double factor, int places) {
    for (const char* key : {"value", "low", "high"})
        if (const auto column = column_of(table, key); column && *column < row.cells.size())
            scale_cell(row.cells[*column], factor, places);
    row.source = "first start";
    row.confidence = "agreed";
}

/// `most`: the largest factor that is believed; 0: any.
double factor_of(double answer, double now, double most, const char* what) {
    if (answer == 0 || now == 0) return 1;
    const double factor = answer / now;
    if (most > 0 && (factor > most || factor < 1 / most))
        throw BadInput(std::string(what) + ": " + number_text(answer, 2) + ", expected from " +
                       number_text(now / most, 2) + " to " + number_text(now * most, 2));
    return factor;
}

void scale_rates(RuleTables& rules, double shop, double engineering) {
    RuleTable& rates = rules.table("rates");
    for (RuleRow& row : rates.rows) {
        const double factor = goes_with_shop(row.key) ? shop : engineering;
        if (factor != 1) scale_row(rates, row, factor, 2);
    }
}

void scale_norms(RuleTables& rules, double shop, double others) {
    RuleTable& hours = rules.table("hours");
    const auto work_class = column_of(hours, "class");
    const auto unit = column_of(hours, "unit"); // percent of hours follow by themselves
    for (RuleRow& row : hours.rows) {
        const bool of_shop =
            work_class && *work_class < row.cells.size() && is_of_workshop(row.cells[*work_class]);
        const bool in_percent =
            unit && *unit < row.cells.size() && row.cells[*unit].starts_with('%');
        const double factor = of_shop ? shop : others;
        if (factor != 1 && !in_percent) scale_row(hours, row, factor, 2);
    }
}

void set_value(RuleTables& rules, const char* table, const char* key, const std::string& value) {
    RuleTable& named = rules.table(table);
    const auto row = std::ranges::find(named.rows, key, &RuleRow::key);
    const auto column = column_of(named, "value");
    if (row == named.rows.end() || !column || *column >= row->cells.size()) return;
    row->cells[*column] = value;
    row->source = "first start";
    row->confidence = "agreed";
}

/// The value of an active row; 0 where there is none.
double value_of(const RuleTables& rules, const char* table, const char* key) {
    const RuleTable* named = rules.find(table);
    if (!named) return 0;
    const auto row = std::ranges::find(named->rows, key, &RuleRow::key);
    const auto column = column_of(*named, "value");
    if (row == named->rows.end() || !row->active || !column || *column >= row->cells.size())
        return 0;
    const auto number = parse_decimal(row->cells[*column]);
    return number ? number->number() : 0;
}

} // namespace

KnownJob known_job(const Estimate& estimate, const RuleTables& rules) {
    KnownJob job;
    for (const PointResult& point : estimate.points)
        for (const BoxResult& box : estimate.boxes)
            if (box.name == point.box) job.points += point.used * box.quantity;
    for (const LabourLine& line : estimate.labour)
        (is_of_workshop(line.work_class) ? job.shop_hours : job.other_hours) += line.hours.number();
    job.rate_shop = value_of(rules, "rates", "shop");
    job.rate_engineering = value_of(rules, "rates", "engineering");
    job.currency = estimate.request.currency;
    return job;
}

RuleTables with_shop_answers(const RuleTables& rules, const ShopAnswers& answers,
                             const KnownJob& job) {
    RuleTables changed = rules;
    const double most = value_of(rules, "shop", "most_answer_factor");
    const auto factor = [&](double answer, double now, const char* what) {
        return factor_of(answer, now, most, what);
    };
    scale_rates(changed, factor(answers.rate_shop, job.rate_shop, "Rate of the workshop"),
                factor(answers.rate_engineering, job.rate_engineering, "Rate of engineering"));
    const double per_point = job.points > 0 ? job.other_hours / job.points : 0;
    scale_norms(changed, factor(answers.shop_hours, job.shop_hours, "Hours in the workshop"),
                factor(answers.hours_per_point, per_point, "Hours for a point"));
    if (!answers.currency.empty()) set_value(changed, "price_policy", "currency", answers.currency);
    set_value(changed, "shop", "norms_confirmed", "1");
    return changed;
}

} // namespace backplate
