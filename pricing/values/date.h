#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace backplate {

/// A calendar day (proleptic Gregorian), counted from 1970-01-01. The library has no clock: the
/// day of a job comes with the request.
struct Date {
    int days = 0;

    static Date of(int year, int month, int day);
    /// Reads YYYY-MM-DD of an existing day, years 1900 to 9999.
    static std::optional<Date> parse(std::string_view text);
    std::string text() const;
    Date plus_days(int count) const { return {days + count}; }
    auto operator<=>(const Date&) const = default;
};

} // namespace backplate
