#include "pricing/cost/roll_up.h"

#include <algorithm>
#include <cmath>

#include "pricing/cost/bill.h"
#include "pricing/cost/risk.h"

namespace backplate {
namespace {

constexpr int default_draws = 20000;

Money money_of(double amount, int digits) {
    const double factor = static_cast<double>(power_of_ten(digits));
    return Money::of_steps(std::llround(amount * factor) * power_of_ten(Money::places - digits));
}

Money margin_of(Money cost, const Commercial& terms, int digits) {
    if (terms.markup) return cost.share(*terms.markup, digits);
    const std::int64_t percent = terms.margin.value_or(Percent{}).steps();
    const std::int64_t step = power_of_ten(Money::places - digits);
    return Money::of_steps(multiply_divide(cost.steps(), percent,
                                           (Percent::whole(100).steps() - percent) * step,
                                           Rounding::half_away))
        .times(step);
}

/// Direct cost × (1 + overhead) and the margin of the price (or markup), rounded once.
Money base_price(Money direct, const Commercial& terms, const RuleBook& rules, int digits) {
    const std::int64_t hundred = Percent::whole(100).steps();
    const std::int64_t step = power_of_ten(Money::places - digits);
    std::int64_t numerator = hundred + Percent::of(rules.policy.overhead.value).steps();
    std::int64_t divisor = hundred - terms.margin.value_or(Percent{}).steps();
    if (terms.markup) {
        numerator *= hundred + terms.markup->steps();
        divisor = hundred * hundred;
    }
    return Money::of_steps(
               multiply_divide(direct.steps(), numerator, divisor * step, Rounding::half_away))
        .times(step);
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

double price_factor(const BidRequest& request, const RuleBook& rules) {
    const double overhead = 1 + rules.policy.overhead.number() / 100;
    if (request.commercial.markup) return overhead * (1 + request.commercial.markup->fraction());
    return overhead / (1 - request.commercial.margin.value_or(Percent{}).fraction());
}

PriceResult roll_up(const std::vector<BillLine>& bill, const std::vector<LabourLine>& labour,
                    const BidRequest& request, const RuleBook& rules) {
    PriceResult price;
    const int digits = rules.digits_of(request.currency);
    const Commercial& terms = request.commercial;
    price.currency = request.currency;
    price.digits = digits;
    price.material = material_of(bill);
    price.freight = price.material.share(Percent::of(rules.policy.freight_percent.value), digits);
    for (const LabourLine& line : labour) price.labour += line.cost;
    price.direct = price.material + price.freight + price.labour;
    price.contingency = price.direct.share(terms.contingency, digits);
    price.overhead =
        (price.direct + price.contingency).share(Percent::of(rules.policy.overhead.value), digits);
    price.cost = price.direct + price.contingency + price.overhead;
    price.margin = margin_of(price.cost, terms, digits);
    price.concession = (price.cost + price.margin).share(terms.concession, digits);
    const Money raw = price.cost + price.margin - price.concession;
    const Money step = Money::of_steps(
        round_to_steps(rules.policy.round_up_to.value, Money::places, Rounding::half_away));
    price.price = step.is_zero() ? raw : raw.rounded_up_to(step);
    price.rounding = price.price - raw;
    if (terms.tax) price.tax = price.price.share(*terms.tax, digits);
    const double factor = price_factor(request, rules);
    price.base = base_price(price.direct, terms, rules, digits);
    const PriceRange range = range_of(labour, price.material + price.freight, request, rules);
    price.p50 = money_of(range.p50 * factor, digits);
    price.p80 = money_of(range.p80 * factor, digits);
    return price;
}

namespace {

BasisInput money_input(const char* key, Money amount, const PriceResult& price) {
    return from_figure(std::string("/price/") + key, amount.text(price.digits), price.currency);
}

BasisEntry entry_of(const char* key, Money amount, const PriceResult& price, std::string formula,
                    std::string rule) {
    return {std::string("/price/") + key,
            amount.text(price.digits),
            price.currency,
            std::move(formula),
            std::move(rule),
            {},
            "trade-practice 4.2, compound order"};
}

void record_margin(const PriceResult& price, const Commercial& terms, Recorder& recorder) {
    const bool markup = terms.markup.has_value();
    BasisEntry entry =
        entry_of("margin", price.margin, price, markup ? "a × b ÷ 100" : "a × b ÷ (100 − b)",
                 "price_policy/margin");
    const Percent percent = markup ? *terms.markup : terms.margin.value_or(Percent{});
    entry.inputs = {
        money_input("cost", price.cost, price),
        from_request(markup ? "/commercial/markup_percent" : "/commercial/margin_percent",
                     percent.text(), "%")};
    recorder.add(std::move(entry));
}

void record_base(const PriceResult& price, const Commercial& terms, const Rule& overhead,
                 Recorder& recorder) {
    const bool markup = terms.markup.has_value();
    const Percent percent = markup ? *terms.markup : terms.margin.value_or(Percent{});
    BasisEntry entry =
        entry_of("base", price.base, price,
                 markup ? "a × (1 + b ÷ 100) × (1 + c ÷ 100)" : "a × (1 + b ÷ 100) ÷ (1 − c ÷ 100)",
                 "price_policy/chain");
    entry.inputs = {
        money_input("direct", price.direct, price),
        from_rule(overhead.id, overhead.text(), overhead.unit),
        from_request(markup ? "/commercial/markup_percent" : "/commercial/margin_percent",
                     percent.text(), "%")};
    recorder.add(std::move(entry));
}

} // namespace

void record_price(const PriceResult& price, const BidRequest& request, const RuleBook& rules,
                  Recorder& recorder) {
    const auto add = [&](BasisEntry entry, std::vector<BasisInput> inputs) {
        entry.inputs = std::move(inputs);
        recorder.add(std::move(entry));
    };
    const PricePolicy& policy = rules.policy;
    const auto rule = [](const Rule& row) { return from_rule(row.id, row.text(), row.unit); };
    const auto figure = [&](const char* key, Money amount) {
        return money_input(key, amount, price);
    };
    add(entry_of("freight", price.freight, price, "a × b ÷ 100", policy.freight_percent.id),
        {figure("material", price.material), rule(policy.freight_percent)});
    add(entry_of("direct", price.direct, price, "a + b + c", "price_policy/chain"),
        {figure("material", price.material), figure("freight", price.freight),
         figure("labour", price.labour)});
    add(entry_of("contingency", price.contingency, price, "a × b ÷ 100",
                 "price_policy/contingency"),
        {figure("direct", price.direct), from_request("/commercial/contingency_percent",
                                                      request.commercial.contingency.text(), "%")});
    add(entry_of("overhead", price.overhead, price, "(a + b) × c ÷ 100", policy.overhead.id),
        {figure("direct", price.direct), figure("contingency", price.contingency),
         rule(policy.overhead)});
    add(entry_of("cost", price.cost, price, "a + b + c", "price_policy/chain"),
        {figure("direct", price.direct), figure("contingency", price.contingency),
         figure("overhead", price.overhead)});
    record_margin(price, request.commercial, recorder);
    add(entry_of("price", price.price, price, "ceil((a + b − c) ÷ d) × d", policy.round_up_to.id),
        {figure("cost", price.cost), figure("margin", price.margin),
         figure("concession", price.concession), rule(policy.round_up_to)});
    record_base(price, request.commercial, policy.overhead, recorder);
    add(entry_of("rounding", price.rounding, price, "a − (b + c − d)", policy.round_up_to.id),
        {figure("price", price.price), figure("cost", price.cost), figure("margin", price.margin),
         figure("concession", price.concession)});
}

} // namespace backplate
