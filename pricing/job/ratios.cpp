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

/// A ratio as its two terms; nothing where the lower one is zero or the name is unknown.
struct Terms {
    double above = 0, below = 0;
    std::string above_text, below_text; ///< as they stand in the formula
    std::string above_figure, below_figure;
    double scale = 1;
};

Terms counted(double above, double below) {
    return {above, below, number_text(above), number_text(below), {}, {}};
}

Terms of_price(Money price, int digits, double below) {
    return {price.number(), below, price.text(digits), number_text(below), "/price/price", {}};
}

std::optional<Terms> terms_of(const std::string& name, const Estimate& estimate,
                              const Totals& totals) {
    const PriceResult& price = *estimate.price;
    if (name == "price_per_point") return of_price(price.price, price.digits, totals.points);
    if (name == "price_per_channel") return of_price(price.price, price.digits, totals.channels);
    if (name == "material_share_percent")
        return Terms{price.material.number(),
                     price.direct.number(),
                     price.material.text(price.digits),
                     price.direct.text(price.digits),
                     "/price/material",
                     "/price/direct",
                     100};
    if (name == "hours_per_point") return counted(totals.hours, totals.points);
    if (name == "build_hours_per_wire") return counted(totals.shop, totals.wires);
    if (name == "build_hours_per_terminal") return counted(totals.shop, totals.terminals);
    if (name == "engineering_to_build") return counted(totals.engineering, totals.shop);
    return std::nullopt;
}

std::optional<Terms> sound_terms(const Ratio& row, const Estimate& estimate, const Totals& totals) {
    const auto terms = terms_of(row.key, estimate, totals);
    return terms && terms->below != 0 && row.low && row.high ? terms : std::nullopt;
}

double value_of(const Terms& terms) { return terms.above * terms.scale / terms.below; }

} // namespace

std::vector<RatioResult> ratios_of(const Estimate& estimate, const RuleBook& rules) {
    std::vector<RatioResult> ratios;
    const Totals totals = totals_of(estimate);
    for (const Ratio& row : rules.ratios) {
        const auto terms = sound_terms(row, estimate, totals);
        if (!terms) continue;
        const bool money = row.unit.starts_with("per ");
        RatioResult ratio;
        ratio.name = row.key;
        ratio.unit = money ? estimate.price->currency : row.unit;
        ratio.digits = money ? estimate.price->digits : row.unit == "%" ? 1 : 3;
        ratio.value = value_of(*terms);
        ratio.low = row.low->number();
        ratio.high = row.high->number();
        ratios.push_back(ratio);
    }
    return ratios;
}

void record_ratios(const Estimate& estimate, const RuleBook& rules, Recorder& recorder) {
    const Totals totals = totals_of(estimate);
    std::int64_t place = 0;
    for (const Ratio& row : rules.ratios) {
        const auto terms = sound_terms(row, estimate, totals);
        if (!terms) continue;
        const RatioResult& ratio = estimate.ratios[static_cast<std::size_t>(place)];
        BasisEntry entry{"/ratios/" + steps_text(place++, 0) + "/value",
                         number_text(ratio.value),
                         ratio.unit,
                         "",
                         "ratios/" + row.key,
                         {},
                         "trade-practice 1.3 check 15: a ratio to compare with past jobs"};
        const auto term = [&](const std::string& figure, const std::string& text) {
            if (figure.empty()) return text;
            entry.inputs.push_back(from_figure(figure, text, estimate.price->currency));
            return input_letter(entry.inputs.size() - 1);
        };
        entry.formula = term(terms->above_figure, terms->above_text);
        if (terms->scale != 1) entry.formula += " × " + number_text(terms->scale);
        entry.formula += " ÷ " + term(terms->below_figure, terms->below_text);
        recorder.add(std::move(entry));
    }
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
