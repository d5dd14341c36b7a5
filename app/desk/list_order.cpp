#include "app/desk/list_order.h"

#include <algorithm>
#include <charconv>
#include <numeric>
#include <optional>

namespace backplate {
namespace {

/// What a cell is sorted by.
struct SortKey {
    std::optional<double> number;
    std::string text;
};

void leave_out(std::string& text, std::string_view what) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at))
        text.erase(at, what.size());
}

std::optional<double> figure_in(std::string text) {
    for (const char* mark : {"\u202f", "\u00a0", "≈", "+", " "}) leave_out(text, mark);
    if (text.starts_with("\u2212")) text.replace(0, std::string_view("\u2212").size(), "-");
    std::ranges::replace(text, ',', '.');
    double number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    return fault == std::errc{} ? std::optional(number) : std::nullopt;
}

SortKey key_of(const std::string& cell, bool number) {
    if (number) return {figure_in(cell), {}};
    std::string text = cell;
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return {std::nullopt, std::move(text)};
}

} // namespace

std::vector<std::size_t> shown_order(const std::vector<std::vector<std::string>>& rows,
                                     const SortBy& by) {
    std::vector<std::size_t> order(rows.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    if (by.column < 0 || rows.empty()) return order;
    const auto end = order.end() - (by.sum_last ? 1 : 0);
    if (by.as_given) {
        if (!by.ascending) std::reverse(order.begin(), end);
        return order;
    }
    const auto column = static_cast<std::size_t>(by.column);
    std::vector<SortKey> keys;
    for (const auto& row : rows)
        keys.push_back(key_of(column < row.size() ? row[column] : std::string(), by.numbers));
    std::stable_sort(order.begin(), end, [&](std::size_t one, std::size_t other) {
        const SortKey& a = keys[one];
        const SortKey& b = keys[other];
        if (a.number.has_value() != b.number.has_value()) return a.number.has_value();
        if (a.number) return by.ascending ? *a.number < *b.number : *b.number < *a.number;
        return by.ascending ? a.text < b.text : b.text < a.text;
    });
    return order;
}

} // namespace backplate
