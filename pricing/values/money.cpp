#include "pricing/values/money.h"

#include <cstdlib>
#include <numeric>
#include <stdexcept>

#include "pricing/values/wide.h"

namespace backplate {
namespace {

std::optional<std::int64_t> parse_steps(std::string_view text, int places) {
    const auto decimal = parse_decimal(text);
    if (!decimal) return std::nullopt;
    return to_steps(*decimal, places);
}

std::string without_zeros(std::string text) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

Wide checked_product(Wide a, Wide b) {
    Wide result = 0;
    if (__builtin_mul_overflow(a, b, &result)) throw OverflowError("discount chain too long");
    return result;
}

} // namespace

std::optional<Percent> Percent::parse(std::string_view text) {
    const auto steps = parse_steps(text, places);
    if (!steps) return std::nullopt;
    return Percent(*steps);
}

Percent Percent::of(Decimal value) {
    const auto steps = to_steps(value, places);
    if (!steps) throw std::invalid_argument("percent with more than four decimals");
    return Percent(*steps);
}

std::string Percent::text() const { return without_zeros(steps_text(steps_, places)); }

std::optional<Hours> Hours::parse(std::string_view text) {
    const auto steps = parse_steps(text, places);
    if (!steps) return std::nullopt;
    return Hours(*steps);
}

Hours Hours::times(std::int64_t count) const {
    return Hours(multiply_divide(steps_, count, 1, Rounding::half_away));
}

std::optional<Money> Money::parse(std::string_view text) {
    const auto steps = parse_steps(text, places);
    if (!steps) return std::nullopt;
    return Money(*steps);
}

Money Money::times(std::int64_t count) const {
    return Money(multiply_divide(steps_, count, 1, Rounding::half_away));
}

Money Money::times(Hours hours, int digits) const {
    const std::int64_t step = power_of_ten(places - digits);
    return Money(multiply_divide(steps_, hours.steps(), 1000 * step, Rounding::half_away))
        .times(step);
}

Money Money::share(Percent percent, int digits) const {
    const std::int64_t step = power_of_ten(places - digits);
    return Money(multiply_divide(steps_, percent.steps(), 1000000 * step, Rounding::half_away))
        .times(step);
}

Money Money::ratio(std::int64_t numerator, std::int64_t divisor) const {
    return Money(multiply_divide(steps_, numerator, divisor, Rounding::half_away));
}

Money Money::rounded(int digits, Rounding rounding) const {
    if (digits >= places) return *this;
    const std::int64_t step = power_of_ten(places - digits);
    return Money(multiply_divide(steps_, 1, step, rounding)).times(step);
}

Money Money::rounded_up_to(Money step) const {
    return Money(multiply_divide(steps_, 1, step.steps_, Rounding::up)).times(step.steps_);
}

std::string Money::text(int digits) const {
    const std::int64_t step = power_of_ten(places - digits);
    return steps_text(multiply_divide(steps_, 1, step, Rounding::half_away), digits);
}

std::string Money::unit_text(int digits) const {
    const bool short_enough = rounded(digits) == *this;
    return text(short_enough ? digits : places);
}

Money after_discounts(Money list, const Percent* first, const Percent* last) {
    if (first == last) return list;
    constexpr std::int64_t hundred_percent = 1000000;
    Wide numerator = list.steps();
    Wide divisor = 1;
    for (; first != last; ++first) {
        const std::int64_t keep = checked_subtract(hundred_percent, first->steps());
        const std::int64_t common = std::gcd(keep, hundred_percent);
        numerator = checked_product(numerator, keep / common);
        divisor = checked_product(divisor, hundred_percent / common);
    }
    return Money::of_steps(narrow(divide(numerator, divisor, Rounding::half_away)));
}

Money part_of_split(Money amount, int parts, int index, int digits) {
    const std::int64_t step = power_of_ten(Money::places - digits);
    const std::int64_t whole = amount.steps() / step;
    const std::int64_t rest = whole % parts;
    const std::int64_t extra = index < std::abs(rest) ? (rest > 0 ? 1 : -1) : 0;
    return Money::of_steps((whole / parts + extra) * step);
}

} // namespace backplate
