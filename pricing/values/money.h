#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "pricing/values/decimal.h"

namespace backplate {

/// Percent, exact in ten-thousandths of a percent.
class Percent {
public:
    static constexpr int places = 4;
    constexpr Percent() = default;
    static constexpr Percent of_steps(std::int64_t steps) { return Percent(steps); }
    static constexpr Percent whole(std::int64_t percent) { return Percent(percent * 10000); }
    /// Nothing where the text is no decimal or has more than four decimals.
    static std::optional<Percent> parse(std::string_view text);
    static Percent of(Decimal value); ///< throws std::invalid_argument beyond four decimals

    constexpr std::int64_t steps() const { return steps_; }
    double fraction() const { return static_cast<double>(steps_) / 1e6; }
    /// Without needless zeros: "12.5".
    std::string text() const;
    auto operator<=>(const Percent&) const = default;

private:
    constexpr explicit Percent(std::int64_t steps) : steps_(steps) {}
    std::int64_t steps_ = 0;
};

/// Working hours, exact in thousandths.
class Hours {
public:
    static constexpr int places = 3;
    constexpr Hours() = default;
    static constexpr Hours of_steps(std::int64_t steps) { return Hours(steps); }
    static std::optional<Hours> parse(std::string_view text);

    constexpr std::int64_t steps() const { return steps_; }
    double number() const { return static_cast<double>(steps_) / 1000.0; }
    std::string text() const { return steps_text(steps_, places); }
    Hours operator+(Hours other) const { return Hours(checked_add(steps_, other.steps_)); }
    Hours operator-(Hours other) const { return Hours(checked_subtract(steps_, other.steps_)); }
    Hours& operator+=(Hours other) { return *this = *this + other; }
    Hours times(std::int64_t count) const;
    auto operator<=>(const Hours&) const = default;

private:
    constexpr explicit Hours(std::int64_t steps) : steps_(steps) {}
    std::int64_t steps_ = 0;
};

/// An amount in the job's currency, exact in ten-thousandths. Every operation throws
/// OverflowError instead of wrapping.
class Money {
public:
    static constexpr int places = 4;
    constexpr Money() = default;
    static constexpr Money of_steps(std::int64_t steps) { return Money(steps); }
    static constexpr Money whole(std::int64_t units) { return Money(units * 10000); }
    static std::optional<Money> parse(std::string_view text);

    constexpr std::int64_t steps() const { return steps_; }
    double number() const { return static_cast<double>(steps_) / 10000.0; }
    constexpr bool is_zero() const { return steps_ == 0; }

    Money operator+(Money other) const { return Money(checked_add(steps_, other.steps_)); }
    Money operator-(Money other) const { return Money(checked_subtract(steps_, other.steps_)); }
    Money operator-() const { return Money(checked_subtract(0, steps_)); }
    Money& operator+=(Money other) { return *this = *this + other; }
    Money times(std::int64_t count) const;
    /// Rate per hour × hours, to the currency's digits, half away from zero.
    Money times(Hours hours, int digits) const;
    /// share × percent ÷ 100, to the currency's digits, half away from zero.
    Money share(Percent percent, int digits) const;
    /// a × numerator ÷ divisor, to ten-thousandths, half away from zero.
    Money ratio(std::int64_t numerator, std::int64_t divisor) const;
    Money rounded(int digits, Rounding rounding = Rounding::half_away) const;
    /// The next whole multiple of step at or above; step > 0.
    Money rounded_up_to(Money step) const;
    /// Exactly `digits` decimals; the amount must have been rounded to them.
    std::string text(int digits) const;
    /// `digits` decimals, or all four where that would lose something (unit prices): "7.40",
    /// "7.4340".
    std::string unit_text(int digits) const;
    auto operator<=>(const Money&) const = default;

private:
    constexpr explicit Money(std::int64_t steps) : steps_(steps) {}
    std::int64_t steps_ = 0;
};

/// Net price after a chain of discounts, which multiply; rounded once to ten-thousandths. Throws
/// OverflowError where the exact product of the chain leaves 128 bits.
/// Source: trade-practice 4.1 (checks DC1 to DC3 in tests/SOURCES.md).
Money after_discounts(Money list, const Percent* first, const Percent* last);

/// Splits an amount into equal parts in steps of 10^-digits, the largest remainder first.
/// parts > 0, index from 0, the amount a whole number of steps; the parts add up to it exactly.
Money part_of_split(Money amount, int parts, int index, int digits);

} // namespace backplate
