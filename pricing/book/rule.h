#pragma once

#include <optional>
#include <string>

#include "pricing/values/decimal.h"

namespace backplate {

/// One value of a rule table with the id that a basis quotes.
struct Rule {
    std::string id; ///< table/row
    Decimal value;
    std::optional<Decimal> low, high;
    std::string unit;
    std::string source;
    std::optional<Decimal> before_exchange; ///< in the price book's currency, where that is another

    double number() const { return value.number(); }
    double low_number() const { return low ? low->number() : value.number(); }
    double high_number() const { return high ? high->number() : value.number(); }
    std::string text() const { return value.text(); }
};

using OptionalRule = std::optional<Rule>;

} // namespace backplate
