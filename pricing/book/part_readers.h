#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>

#include "pricing/book/part.h"

namespace backplate {

// What the cells of part_fields are read and written with. A reader leaves the part alone and says
// false where the cell is not of its form; a writer gives an empty text for what the part lacks.

template <auto member>
using MemberValue = std::remove_cvref_t<decltype(std::declval<Part&>().*member)>;

template <class Value>
inline constexpr bool is_whole =
    std::is_same_v<Value, int> || std::is_same_v<Value, std::optional<int>>;

std::optional<double> number_in(std::string_view cell, double low, double high);
std::optional<int> integer_in(std::string_view cell, double low, double high);

inline std::string value_text(double value) { return value == 0 ? "" : number_text(value); }
inline std::string value_text(int value) { return value == 0 ? "" : std::to_string(value); }
template <class Value> std::string value_text(const std::optional<Value>& value) {
    return value ? number_text(static_cast<double>(*value)) : "";
}

template <auto member, auto low, auto high> bool read_number(Part& part, std::string_view cell) {
    const auto value = [&] {
        if constexpr (is_whole<MemberValue<member>>)
            return integer_in(cell, low, high);
        else
            return number_in(cell, low, high);
    }();
    if (value) part.*member = *value;
    return value.has_value();
}

template <auto member> std::string write_number(const Part& part) {
    return value_text(part.*member);
}

/// One line of text, no blanks at its ends.
bool is_line(std::string_view cell);

template <auto member> bool read_text(Part& part, std::string_view cell) {
    if (!is_line(cell)) return false;
    part.*member = cell;
    return true;
}

template <auto member> std::string write_text(const Part& part) { return part.*member; }

bool is_word_of(std::string_view cell, std::span<const std::string_view> words);

template <auto member, const auto& words> bool read_word(Part& part, std::string_view cell) {
    if (!is_word_of(cell, words)) return false;
    part.*member = cell;
    return true;
}

template <auto member> bool read_flag(Part& part, std::string_view cell) {
    part.*member = cell == "yes";
    return part.*member || cell == "no";
}

template <auto member> std::string write_flag(const Part& part) {
    return part.*member ? "yes" : "";
}

template <auto member> bool read_date(Part& part, std::string_view cell) {
    const auto date = Date::parse(cell);
    if (date) part.*member = *date;
    return date.has_value();
}

template <auto member> std::string write_date(const Part& part) {
    return part.*member ? (part.*member)->text() : "";
}

bool read_key(Part& part, std::string_view cell);
bool read_list(Part& part, std::string_view cell);
std::string write_list(const Part& part);
bool read_discounts(Part& part, std::string_view cell);
std::string write_discounts(const Part& part);
bool read_accessories(Part& part, std::string_view cell);
std::string write_accessories(const Part& part);
bool read_combinations(Part& part, std::string_view cell);
std::string write_combinations(const Part& part);
/// An IP mark, or a type mark alone.
bool read_protection(Part& part, std::string_view cell);

// One group without common limit or property: three columns; anything else: `groups`.
bool read_signal(Part& part, std::string_view cell);
std::string write_signal(const Part& part);
bool read_channels(Part& part, std::string_view cell);
std::string write_channels(const Part& part);
bool read_channel_a(Part& part, std::string_view cell);
std::string write_channel_a(const Part& part);
bool read_groups(Part& part, std::string_view cell);
std::string write_groups(const Part& part);

inline constexpr std::string_view type_marks[] = {
    "Type 1", "Type 2",  "Type 3", "Type 3R", "Type 3S", "Type 3X", "Type 3RX", "Type 3SX",
    "Type 4", "Type 4X", "Type 5", "Type 6",  "Type 6P", "Type 12", "Type 12K", "Type 13"};

} // namespace backplate
