#include "pricing/takeoff/tags.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace backplate {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); }

/// The tag in shape: every digit as 9, every letter as A.
std::string shape_of(const std::string& tag) {
    std::string shape;
    for (const char c : tag) shape += is_digit(c) ? '9' : is_letter(c) ? 'A' : c;
    return shape;
}

bool is_calendar_day(const std::string& shape) {
    constexpr std::array<std::string_view, 6> days{"9999-99-99", "99/99/9999", "9/9/9999",
                                                   "99/9/9999",  "9/99/9999",  "99.99.9999"};
    return std::ranges::find(days, shape) != days.end();
}

bool is_scientific(const std::string& shape) {
    const auto power = shape.find("A+99");
    return power != std::string::npos && power > 0 && power + 4 == shape.size() &&
           shape.find_first_not_of("9.,") == power;
}

std::optional<int> number_of(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

std::string digits_at_end(const std::string& text) {
    const auto last = text.find_last_not_of("0123456789");
    return last == std::string::npos ? text : text.substr(last + 1);
}

/// "LSH-101" and "104" (or "LSH-104"): how many from the one to the other.
std::optional<int> count_of_range(const std::string& first, const std::string& last) {
    const std::string from = digits_at_end(first), to = digits_at_end(last);
    const std::string head = last.substr(0, last.size() - to.size());
    if (!head.empty() && head != first.substr(0, first.size() - from.size())) return std::nullopt;
    const auto low = number_of(from), high = number_of(to);
    if (!low || !high || *high <= *low || *high - *low > 999) return std::nullopt;
    return *high - *low + 1;
}

/// Letters after the last digit, parted by slashes: 3 for "A/B/C".
std::optional<int> count_of_letters(const std::string& tag) {
    const auto digit = tag.find_last_of("0123456789");
    if (digit == std::string::npos) return std::nullopt;
    const std::string shape = shape_of(tag.substr(digit + 1));
    if (shape.size() < 3 || shape.size() % 2 == 0) return std::nullopt;
    for (std::size_t i = 0; i < shape.size(); ++i)
        if (shape[i] != (i % 2 == 0 ? 'A' : '/')) return std::nullopt;
    return static_cast<int>(shape.size() / 2) + 1;
}

bool names_two_signals(const std::string& tag) {
    const std::string shape = shape_of(tag);
    const auto slash = shape.find("A/A");
    return slash != std::string::npos && (slash + 3 == shape.size() || shape[slash + 3] != 'A') &&
           !tags_in_range(tag);
}

} // namespace

std::optional<std::string> tag_warning(const std::string& tag, const Lexicon& lexicon) {
    const std::string shape = shape_of(tag);
    if (lexicon.is(squeeze(tag), "date") || is_calendar_day(shape)) return "tag_is_date";
    if (is_scientific(shape) || (shape == "99999" && tag[0] != '0')) return "tag_is_number";
    if (names_two_signals(tag)) return "tag_two_signals";
    return std::nullopt;
}

std::optional<int> tags_in_range(const std::string& tag) {
    for (const std::string mark : {"…", "...", "..", " to "}) {
        const auto at = tag.find(mark);
        if (at == std::string::npos || at == 0) continue;
        return count_of_range(tag.substr(0, at), tag.substr(at + mark.size()));
    }
    return count_of_letters(tag);
}

} // namespace backplate
