#pragma once

#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"

namespace backplate {

/// An amount of the price book's currency in another: × rate × (1 + buffer ÷ 100), rounded once to
/// four decimals. Source: trade-practice 4.4.
Money exchanged(Money amount, const ExchangeRate& rate);

/// The price book with every list price in the currency of the rate.
PriceBook exchanged(const PriceBook& book, const ExchangeRate& rate);

/// The rules with every amount in the currency of the rate: hourly rates, overhead per hour,
/// charges per box and job, small orders. The price's step stays: it is a number of the job's
/// currency.
RuleBook exchanged(const RuleBook& rules, const ExchangeRate& rate);

} // namespace backplate
