#include "pricing/cost/roll_up.h"

#include <algorithm>
#include <cmath>

#include "pricing/cost/bill.h"
#include "pricing/cost/charges.h"
#include "pricing/cost/risk.h"
#include "pricing/request/node_values.h"

namespace backplate {
namespace {

constexpr int default_draws = 20000;

const std::int64_t hundred = Percent::whole(100).steps();

Money money_of(double amount, int digits) {
    const double factor = static_cast<double>(power_of_ten(digits));
    return Money::of_steps(std::llround(amount * factor) * power_of_ten(Money::places - digits));
}

/// amount × numerator ÷ divisor, rounded once to the digits.
Money rounded_ratio(Money amount, std::int64_t numerator, std::int64_t divisor, int digits) {
    const std::int64_t step = power_of_ten(Money::places - digits);
    return Money::of_steps(
               multiply_divide(amount.steps(), numerator, divisor * step, Rounding::half_away))
        .times(step);
}

Money of_price(Money cost, Percent margin, int digits) {
    return rounded_ratio(cost, margin.steps(), hundred - margin.steps(), digits);
}

/// Overhead on direct cost and a contingency in percent of it.
Money overhead_of(const ClassCosts& costs, Money contingency, Percent contingency_percent,
                  Hours hours, const PricePolicy& policy, int digits) {
    const bool additive = policy.order == "additive";
    if (policy.overhead_style == "per_hour") {
        if (!policy.overhead_per_hour) return {};
        return Money::of_steps(round_to_steps(policy.overhead_per_hour->value, Money::places,
                                              Rounding::half_away))
            .times(hours, digits);
    }
    if (policy.overhead_style != "by_class")
        return (costs.sum() + (additive ? Money{} : contingency))
            .share(Percent::of(policy.overhead.value), digits);
    const ClassPercents percents = overhead_percents(policy);
    const Money weighed = costs.material.ratio(percents.material.steps(), hundred) +
                          costs.labour.ratio(percents.labour.steps(), hundred) +
                          costs.subcontract.ratio(percents.subcontract.steps(), hundred);
    const std::int64_t raise = additive ? 0 : contingency_percent.steps();
    return rounded_ratio(weighed, hundred + raise, hundred, digits);
}

/// Cost split by the classes' shares of direct cost; subcontract takes the rest of the rounding.
Money margin_of_classes(Money cost, const ClassCosts& costs, const ClassPercents& percents,
                        int digits) {
    const Money direct = costs.sum();
    if (direct.is_zero()) return {};
    const Money material = rounded_ratio(cost, costs.material.steps(), direct.steps(), digits);
    const Money labour = rounded_ratio(cost, costs.labour.steps(), direct.steps(), digits);
    return of_price(material, percents.material, digits) +
           of_price(labour, percents.labour, digits) +
           of_price(cost - material - labour, percents.subcontract, digits);
}

Money margin_of(Money cost, const ClassCosts& costs, const BidRequest& request,
                const PricePolicy& policy, int digits) {
    const Commercial& terms = request.commercial;
    if (terms.markup) return cost.share(*terms.markup, digits);
    const Percent one = terms.margin.value_or(Percent{});
    if (!margin_by_class(request, policy)) return of_price(cost, one, digits);
    return margin_of_classes(cost, costs, margin_percents(policy, one), digits);
}

/// One percentage of overhead on all, and one of margin or markup.
bool plain_policy(const BidRequest& request, const PricePolicy& policy) {
    return policy.overhead_style == "percent" && !margin_by_class(request, policy);
}

/// Direct cost × (1 + overhead) and the margin of the price (or markup), rounded once.
Money plain_base(Money direct, const Commercial& terms, const PricePolicy& policy, int digits) {
    std::int64_t numerator = hundred + Percent::of(policy.overhead.value).steps();
    std::int64_t divisor = hundred - terms.margin.value_or(Percent{}).steps();
    if (terms.markup) {
        numerator *= hundred + terms.markup->steps();
        divisor = hundred * hundred;
    }
    return rounded_ratio(direct, numerator, divisor, digits);
}

double plain_factor(const Commercial& terms, const PricePolicy& policy) {
    const double overhead = 1 + policy.overhead.number() / 100;
    if (terms.markup) return overhead * (1 + terms.markup->fraction());
    return overhead / (1 - terms.margin.value_or(Percent{}).fraction());
}

Hours hours_of(const std::vector<LabourLine>& labour) {
    Hours sum;
    for (const LabourLine& line : labour) sum += line.hours;
    return sum;
}

/// The price of the likely values, and with what factor cost becomes price in the range.
void fill_base(PriceResult& price, const ClassCosts& costs, const PriceRange& range, Hours hours,
               const BidRequest& request, const RuleBook& rules) {
    const PricePolicy& policy = rules.policy;
    double factor = plain_factor(request.commercial, policy);
    if (plain_policy(request, policy)) {
        price.base = plain_base(price.direct, request.commercial, policy, price.digits);
    } else {
        const Money cost =
            price.direct + overhead_of(costs, Money{}, Percent{}, hours, policy, price.digits);
        price.base = cost + margin_of(cost, costs, request, policy, price.digits);
        factor = price.direct.is_zero() ? 0 : price.base.number() / price.direct.number();
    }
    price.p50 = money_of(range.p50 * factor, price.digits);
    price.p80 = money_of(range.p80 * factor, price.digits);
}

PriceRange range_of(const std::vector<LabourLine>& labour, Money bought, const BidRequest& request,
                    const RuleBook& rules) {
    std::vector<RiskLine> lines;
    const double likely = bought.number();
    lines.push_back({likely * rules.policy.material_low_percent.number() / 100, likely,
                     likely * rules.policy.material_high_percent.number() / 100, false});
    for (const LabourLine& line : labour)
        lines.push_back(
            {line.low_cost,
             std::clamp(line.cost.number(), line.low_cost, std::max(line.low_cost, line.high_cost)),
             line.high_cost, true});
    const int draws = rules.draws ? static_cast<int>(rules.draws->number()) : default_draws;
    return simulate(lines, rules.labour_correlation.number(), draws, request.seed);
}

} // namespace

ClassCosts class_costs(const PriceResult& price, const std::vector<BillLine>& bill) {
    ClassCosts costs;
    for (const BillLine& line : bill)
        if (line.role == "subcontract" && line.line_all) costs.subcontract += *line.line_all;
    costs.material = price.material + price.freight - costs.subcontract;
    costs.labour = price.labour;
    return costs;
}

ClassPercents overhead_percents(const PricePolicy& policy) {
    const auto of = [&](const OptionalRule& row) {
        return Percent::of(row ? row->value : policy.overhead.value);
    };
    return {of(policy.overhead_material), of(policy.overhead_labour),
            of(policy.overhead_subcontract)};
}

ClassPercents margin_percents(const PricePolicy& policy, Percent one) {
    const auto of = [&](const OptionalRule& row) { return row ? Percent::of(row->value) : one; };
    return {of(policy.margin_material), of(policy.margin_labour), of(policy.margin_subcontract)};
}

bool margin_by_class(const BidRequest& request, const PricePolicy& policy) {
    return policy.margin_style == "by_class" && !request.commercial.markup &&
           !at_pointer(request.sent, "/commercial/margin_percent");
}

double most_price_factor(const BidRequest& request, const RuleBook& rules) {
    const PricePolicy& policy = rules.policy;
    const auto most = [](const ClassPercents& of) {
        return std::max({of.material, of.labour, of.subcontract}).fraction();
    };
    double overhead = policy.overhead.number() / 100;
    if (policy.overhead_style == "by_class") overhead = most(overhead_percents(policy));
    if (policy.overhead_style == "per_hour") {
        overhead = 0;
        for (const auto& [name, rate] : rules.rates)
            if (policy.overhead_per_hour && rate.number() > 0)
                overhead = std::max(overhead, policy.overhead_per_hour->number() / rate.number());
    }
    const Commercial& terms = request.commercial;
    if (terms.markup) return (1 + overhead) * (1 + terms.markup->fraction());
    const Percent one = terms.margin.value_or(Percent{});
    const double margin =
        margin_by_class(request, policy) ? most(margin_percents(policy, one)) : one.fraction();
    return (1 + overhead) / (1 - margin);
}

Money tax_of(std::span<const Money> lines, Percent percent, bool each_line, int digits) {
    Money sum, tax;
    for (const Money line : lines) {
        sum += line;
        tax += line.share(percent, digits);
    }
    return each_line ? tax : sum.share(percent, digits);
}

PriceResult roll_up(const std::vector<BillLine>& bill, const std::vector<LabourLine>& labour,
                    const BidRequest& request, const RuleBook& rules, bool with_range) {
    PriceResult price;
    const int digits = rules.digits_of(request.currency);
    const Commercial& terms = request.commercial;
    const PricePolicy& policy = rules.policy;
    price.currency = request.currency;
    price.digits = digits;
    price.material = material_of(bill);
    price.freight = goods_of(bill).share(Percent::of(policy.freight_percent.value), digits);
    for (const LabourLine& line : labour) price.labour += line.cost;
    price.direct = price.material + price.freight + price.labour;
    price.contingency = price.direct.share(terms.contingency, digits);
    const ClassCosts costs = class_costs(price, bill);
    const Hours hours = hours_of(labour);
    price.overhead =
        overhead_of(costs, price.contingency, terms.contingency, hours, policy, digits);
    price.cost = price.direct + price.contingency + price.overhead;
    price.margin = margin_of(price.cost, costs, request, policy, digits);
    price.concession = (price.cost + price.margin).share(terms.concession, digits);
    const Money raw = price.cost + price.margin - price.concession;
    const Money step = Money::of_steps(
        round_to_steps(policy.round_up_to.value, Money::places, Rounding::half_away));
    price.price = step.is_zero() ? raw : raw.rounded_up_to(step);
    price.rounding = price.price - raw;
    if (terms.tax)
        price.tax = tax_of({&price.price, 1}, *terms.tax, policy.tax_rounding == "line", digits);
    PriceRange range;
    if (with_range) range = range_of(labour, price.material + price.freight, request, rules);
    fill_base(price, costs, range, hours, request, rules);
    return price;
}

} // namespace backplate
