#include "pricing/book/exchange.h"

namespace backplate {
namespace {

void exchange(Rule& rule, const ExchangeRate& rate) {
    const Money amount =
        Money::of_steps(round_to_steps(rule.value, Money::places, Rounding::half_away));
    rule.before_exchange = rule.value;
    rule.value = {exchanged(amount, rate).steps(), Money::places};
}

void exchange(OptionalRule& rule, const ExchangeRate& rate) {
    if (rule) exchange(*rule, rate);
}

} // namespace

Money exchanged(Money amount, const ExchangeRate& rate) {
    const std::int64_t hundred = Percent::whole(100).steps();
    const std::int64_t buffered = hundred + Percent::of(rate.buffer_percent.value).steps();
    const std::int64_t factor =
        multiply_divide(rate.rate.value.digits, buffered, 1, Rounding::half_away);
    return Money::of_steps(multiply_divide(amount.steps(), factor,
                                           power_of_ten(rate.rate.value.places) * hundred,
                                           Rounding::half_away));
}

PriceBook exchanged(const PriceBook& book, const ExchangeRate& rate) {
    std::vector<Part> parts = book.parts();
    for (Part& part : parts)
        if (part.list) part.list = exchanged(*part.list, rate);
    return PriceBook(std::move(parts), book.issue());
}

RuleBook exchanged(const RuleBook& rules, const ExchangeRate& rate) {
    RuleBook result = rules;
    for (auto& [work_class, hourly] : result.rates) exchange(hourly, rate);
    for (Charge& charge : result.charges)
        if (charge.of == "box" || charge.of == "job") exchange(charge.rule, rate);
    exchange(result.policy.overhead_per_hour, rate);
    exchange(result.policy.small_order_limit, rate);
    exchange(result.policy.small_order_surcharge, rate);
    return result;
}

} // namespace backplate
