#include "pricing/values/decimal.h"

#include <array>
#include <charconv>
#include <cmath>
#include <limits>

#include "pricing/values/wide.h"

namespace backplate {
namespace {

bool fits(Wide value) {
    return value <= std::numeric_limits<std::int64_t>::max() &&
           value >= std::numeric_limits<std::int64_t>::min();
}

} // namespace

std::int64_t narrow(Wide value) {
    if (!fits(value)) throw OverflowError("exact value out of range");
    return static_cast<std::int64_t>(value);
}

Wide divide(Wide numerator, Wide divisor, Rounding rounding) {
    if (divisor < 0) {
        numerator = -numerator;
        divisor = -divisor;
    }
    const bool negative = numerator < 0;
    const Wide size = negative ? -numerator : numerator;
    const bool narrow_ones = fits(size) && fits(divisor); // their division is many times quicker
    Wide quotient = narrow_ones
                        ? static_cast<std::int64_t>(size) / static_cast<std::int64_t>(divisor)
                        : size / divisor;
    const Wide rest = size - quotient * divisor;
    const bool half = rest * 2 == divisor;
    const bool above = rest * 2 > divisor;
    bool grow = false; // away from zero
    switch (rounding) {
    case Rounding::half_away: grow = above || half; break;
    case Rounding::half_even: grow = above || (half && quotient % 2 != 0); break;
    case Rounding::up: grow = rest != 0 && !negative; break;
    case Rounding::down: grow = rest != 0 && negative; break;
    }
    if (grow) ++quotient;
    return negative ? -quotient : quotient;
}

std::int64_t power_of_ten(int exponent) {
    std::int64_t result = 1;
    for (int i = 0; i < exponent; ++i) result *= 10;
    return result;
}

double Decimal::number() const {
    return static_cast<double>(digits) / static_cast<double>(power_of_ten(places));
}

std::string Decimal::text() const { return steps_text(digits, places); }

bool operator==(const Decimal& a, const Decimal& b) {
    return static_cast<Wide>(a.digits) * power_of_ten(b.places) ==
           static_cast<Wide>(b.digits) * power_of_ten(a.places);
}

std::optional<Decimal> parse_decimal(std::string_view text) {
    Decimal result;
    bool negative = false;
    std::size_t at = 0;
    if (!text.empty() && (text[0] == '-' || text[0] == '+')) {
        negative = text[0] == '-';
        at = 1;
    }
    int seen = 0;
    bool point = false;
    for (; at < text.size(); ++at) {
        const char c = text[at];
        if (c == '.' && !point && seen > 0) {
            point = true;
            continue;
        }
        if (c < '0' || c > '9' || ++seen > 18) return std::nullopt;
        result.digits = result.digits * 10 + (c - '0');
        if (point && ++result.places > 9) return std::nullopt;
    }
    if (seen == 0) return std::nullopt;
    if (negative) result.digits = -result.digits;
    return result;
}

std::optional<std::int64_t> to_steps(Decimal value, int places) {
    if (value.places <= places) {
        const Wide wide = static_cast<Wide>(value.digits) * power_of_ten(places - value.places);
        if (!fits(wide)) return std::nullopt;
        return static_cast<std::int64_t>(wide);
    }
    const std::int64_t factor = power_of_ten(value.places - places);
    if (value.digits % factor != 0) return std::nullopt;
    return value.digits / factor;
}

std::int64_t round_to_steps(Decimal value, int places, Rounding rounding) {
    if (value.places <= places)
        return multiply_divide(value.digits, power_of_ten(places - value.places), 1, rounding);
    return multiply_divide(value.digits, 1, power_of_ten(value.places - places), rounding);
}

std::int64_t multiply_divide(std::int64_t a, std::int64_t b, std::int64_t divisor,
                             Rounding rounding) {
    const Wide product = static_cast<Wide>(a) * b;
    if (divisor == 1) return narrow(product);
    return narrow(divide(product, divisor, rounding));
}

std::int64_t checked_add(std::int64_t a, std::int64_t b) {
    return narrow(static_cast<Wide>(a) + b);
}

std::int64_t checked_subtract(std::int64_t a, std::int64_t b) {
    return narrow(static_cast<Wide>(a) - b);
}

std::string steps_text(std::int64_t steps, int places) {
    const bool negative = steps < 0;
    std::uint64_t size =
        negative ? 0 - static_cast<std::uint64_t>(steps) : static_cast<std::uint64_t>(steps);
    std::array<char, 24> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), size).ptr;
    std::string digits(buffer.data(), end);
    if (places > 0) {
        const auto wanted = static_cast<std::size_t>(places) + 1;
        if (digits.size() < wanted) digits.insert(0, wanted - digits.size(), '0');
        digits.insert(digits.size() - static_cast<std::size_t>(places), 1, '.');
    }
    if (negative) digits.insert(0, 1, '-');
    return digits;
}

std::string number_text(double value, int places) {
    const double factor = static_cast<double>(power_of_ten(places));
    const double scaled = std::abs(value) * factor;
    if (scaled < 1e12) {
        // Storing and scaling a decimal half moves it by at most 2.3e-16 of itself.
        const double nudged = std::floor(scaled * (1 + 4e-16) + 0.5);
        auto steps = static_cast<std::int64_t>(nudged);
        if (value < 0) steps = -steps;
        return steps_text(steps, places);
    }
    std::array<char, 400> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::fixed, places)
                         .ptr;
    return std::string(buffer.data(), end);
}

std::string number_text(double value) {
    std::array<char, 400> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value + 0.0,
                                   std::chars_format::fixed)
                         .ptr;
    return std::string(buffer.data(), end);
}

} // namespace backplate
