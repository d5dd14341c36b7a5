#pragma once

#include <cstdint>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace backplate {

/// Which neighbour a value between two steps goes to.
enum class Rounding { half_away, half_even, up, down };

/// Thrown when an exact value leaves the range of its 64-bit storage.
struct OverflowError : std::overflow_error {
    using std::overflow_error::overflow_error;
};

/// An exact decimal as it was written: digits × 10^-places, places 0..9, at most 18 digits.
struct Decimal {
    std::int64_t digits = 0;
    int places = 0;

    double number() const;
    /// As written, with exactly `places` decimals and a point.
    std::string text() const;
    friend bool operator==(const Decimal& a, const Decimal& b);
};

/// Reads "12", "-0.50", "3.". No exponent, no blanks, no group marks.
/// Nothing where the text is no such number or has more than 18 digits or 9 decimals.
std::optional<Decimal> parse_decimal(std::string_view text);

/// The value in steps of 10^-places. Nothing where that would lose digits or leave 64 bits.
std::optional<std::int64_t> to_steps(Decimal value, int places);

/// The value in steps of 10^-places, rounded. Throws OverflowError.
std::int64_t round_to_steps(Decimal value, int places, Rounding rounding);

/// a × b ÷ divisor over 128 bits, rounded once. Throws OverflowError; divisor must not be 0.
std::int64_t multiply_divide(std::int64_t a, std::int64_t b, std::int64_t divisor,
                             Rounding rounding);

/// Sum and difference that throw OverflowError instead of wrapping.
std::int64_t checked_add(std::int64_t a, std::int64_t b);
std::int64_t checked_subtract(std::int64_t a, std::int64_t b);

/// Steps of 10^-places as text with exactly `places` decimals.
std::string steps_text(std::int64_t steps, int places);

/// A physical value as text with exactly `places` decimals, never "-0.0". A half goes away from
/// zero, and the double nearest to a decimal half is that half: 51.335 gives "51.34".
std::string number_text(double value, int places);

/// Shortest text that reads back to the same value; never an exponent, never "-0".
std::string number_text(double value);

std::int64_t power_of_ten(int exponent);

} // namespace backplate
