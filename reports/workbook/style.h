#pragma once

#include <compare>
#include <cstdint>
#include <string>

namespace backplate {

/// How a cell looks. Equal styles share one format of the file.
struct Style {
    enum class Side { by_content, left, right, centre };

    std::string number = "General";
    int size = 10;
    bool bold = false, italic = false, wrap = false;
    bool line_above = false, line_below = false;
    int indent = 0;
    Side side = Side::by_content;
    std::uint32_t colour = 0x1A1A1A;
    std::uint32_t fill = no_fill;

    static constexpr std::uint32_t no_fill = 0xFFFFFFFF;

    Style numbered(std::string format) const;
    Style sized(int points) const;
    Style bolded() const;
    Style wrapped() const;
    Style coloured(std::uint32_t rgb) const;
    Style filled(std::uint32_t rgb) const;
    Style to(Side wanted) const;
    Style indented() const;
    Style over_line() const;  ///< a line below
    Style under_line() const; ///< a line above: totals

    auto operator<=>(const Style&) const = default;
};

/// The few looks that all sheets share.
namespace look {

inline constexpr std::uint32_t ink = 0x1A1A1A, quiet = 0x5F6368, accent = 0x1F3A5F;
inline constexpr std::uint32_t alarm = 0xA61B1B, caution = 0x8A5A00;
inline constexpr std::uint32_t band = 0xE9EDF2, input = 0xFFF8E1;

Style title();
Style subtitle();
Style section();
Style header();       ///< of a column of texts
Style header_right(); ///< of a column of figures
Style text();
Style wrapped();
Style label();
Style count(); ///< whole number with groups
Style money(int digits);
Style unit_price(int digits); ///< up to four decimals
Style hours();
Style percent(); ///< a percentage as written, its sign behind it
Style one_decimal();
Style date();
/// A figure that a reader may change: the formulas follow.
Style changeable(const Style& style);
Style total(const Style& style);

} // namespace look
} // namespace backplate
