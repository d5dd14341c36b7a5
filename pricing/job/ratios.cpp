#include "pricing/job/ratios.h"

#include <cmath>
#include <optional>

namespace backplate {
namespace {

struct Totals {
    double points = 0, channels = 0, hours = 0, shop = 0, engineering = 0, terminals = 0, wires = 0;
};

Totals totals_of(const Estimate& estimate) {
    Totals totals;
    const auto boxes_of = [&](const std::string& name) {
        for (const BoxResult& box : estimate.boxes)
            if (box.name == name) return box.quantity;
        return 1;
    };
    for (const PointResult& point : estimate.points) {
        totals.points += point.used * boxes_of(point.box);
        totals.channels += point.fitted * boxes_of(point.box);
    }
    for (const LabourLine& line : estimate.labour) {
        totals.hours += line.hours.number();
        if (line.work_class == "shop") totals.shop += line.hours.number();
        if (line.work_class == "engineering") totals.engineering += line.hours.number();
    }
    for (const BoxResult& box : estimate.boxes) {
        totals.terminals += box.terminals.value_or(0) * box.quantity;
        totals.wires += box.wires.value_or(0) * box.quantity;
    }
    return totals;
}

std::optional<double> value_of(const std::string& name, const Estimate& estimate,
                               const Totals& totals) {
    const PriceResult& price = *estimate.price;
    const auto over = [](double a, double b) -> std::optional<double> {
        if (b == 0) return std::nullopt;
        return a / b;
    };
    if (name == "price_per_point") return over(price.price.number(), totals.points);
    if (name == "price_per_channel") return over(price.price.number(), totals.channels);
    if (name == "material_share_percent")
        return over(price.material.number() * 100, price.direct.number());
    if (name == "hours_per_point") return over(totals.hours, totals.points);
    if (name == "build_hours_per_wire") return over(totals.shop, totals.wires);
    if (name == "build_hours_per_terminal") return over(totals.shop, totals.terminals);
    if (name == "engineering_to_build") return over(totals.engineering, totals.shop);
    return std::nullopt;
}

} // namespace

std::vector<RatioResult> ratios_of(const Estimate& estimate, const RuleBook& rules) {
    std::vector<RatioResult> ratios;
    const Totals totals = totals_of(estimate);
    for (const Ratio& row : rules.ratios) {
        const auto value = value_of(row.key, estimate, totals);
        if (!value || !row.low || !row.high) continue;
        const bool money = row.unit == "per point";
        RatioResult ratio;
        ratio.name = row.key;
        ratio.unit = money ? estimate.price->currency : row.unit;
        ratio.digits = money ? estimate.price->digits : row.unit == "%" ? 1 : 3;
        ratio.value = *value;
        ratio.low = row.low->number();
        ratio.high = row.high->number();
        ratios.push_back(ratio);
    }
    return ratios;
}

void fill_delivery(Estimate& estimate, const RuleBook& rules) {
    int longest = -1;
    for (const BillLine& line : estimate.bill) {
        if (!line.lead_days || line.part.empty()) continue;
        const bool later = *line.lead_days > longest ||
                           (*line.lead_days == longest && line.part > estimate.critical_part);
        if (!later) continue;
        longest = *line.lead_days;
        estimate.critical_part = line.part;
    }
    std::int64_t shop = 0;
    for (const LabourLine& line : estimate.labour)
        if (line.work_class == "shop") shop += line.hours.steps();
    const double building = static_cast<double>(shop) / 1000 / rules.shop_hours_per_week.number();
    const int bought = longest < 0 ? 0 : (longest + 6) / 7;
    estimate.delivery_weeks = bought + static_cast<int>(std::ceil(building - 1e-9)) +
                              static_cast<int>(std::ceil(rules.test_weeks.number()));
}

} // namespace backplate
