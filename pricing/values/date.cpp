#include "pricing/values/date.h"

#include <chrono>

#include "pricing/values/decimal.h"

namespace backplate {
namespace {

std::optional<int> digits_only(std::string_view text) {
    int value = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        value = value * 10 + (c - '0');
    }
    return value;
}

} // namespace

Date Date::of(int year, int month, int day) {
    const std::chrono::year_month_day ymd{std::chrono::year{year},
                                          std::chrono::month{static_cast<unsigned>(month)},
                                          std::chrono::day{static_cast<unsigned>(day)}};
    return {static_cast<int>(std::chrono::sys_days{ymd}.time_since_epoch().count())};
}

std::optional<Date> Date::parse(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
    const auto year = digits_only(text.substr(0, 4));
    const auto month = digits_only(text.substr(5, 2));
    const auto day = digits_only(text.substr(8, 2));
    if (!year || !month || !day || *year < 1900) return std::nullopt;
    const std::chrono::year_month_day ymd{std::chrono::year{*year},
                                          std::chrono::month{static_cast<unsigned>(*month)},
                                          std::chrono::day{static_cast<unsigned>(*day)}};
    if (!ymd.ok()) return std::nullopt;
    return Date{static_cast<int>(std::chrono::sys_days{ymd}.time_since_epoch().count())};
}

std::string Date::text() const {
    const std::chrono::year_month_day ymd{std::chrono::sys_days{std::chrono::days{days}}};
    const auto two = [](unsigned value) {
        std::string text = steps_text(value, 0);
        return text.size() < 2 ? "0" + text : text;
    };
    return steps_text(static_cast<int>(ymd.year()), 0) + "-" +
           two(static_cast<unsigned>(ymd.month())) + "-" + two(static_cast<unsigned>(ymd.day()));
}

} // namespace backplate
