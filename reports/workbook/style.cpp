#include "reports/workbook/style.h"

#include <utility>

namespace backplate {

Style Style::numbered(std::string format) const {
    Style result = *this;
    result.number = std::move(format);
    return result;
}

Style Style::sized(int points) const {
    Style result = *this;
    result.size = points;
    return result;
}

Style Style::bolded() const {
    Style result = *this;
    result.bold = true;
    return result;
}

Style Style::wrapped() const {
    Style result = *this;
    result.wrap = true;
    return result;
}

Style Style::coloured(std::uint32_t rgb) const {
    Style result = *this;
    result.colour = rgb;
    return result;
}

Style Style::filled(std::uint32_t rgb) const {
    Style result = *this;
    result.fill = rgb;
    return result;
}

Style Style::to(Side wanted) const {
    Style result = *this;
    result.side = wanted;
    return result;
}

Style Style::indented() const {
    Style result = *this;
    result.indent = 1;
    return result;
}

Style Style::over_line() const {
    Style result = *this;
    result.line_below = true;
    return result;
}

Style Style::under_line() const {
    Style result = *this;
    result.line_above = true;
    return result;
}

namespace look {
namespace {

std::string decimals(int digits, char mark) {
    return digits == 0 ? std::string() : "." + std::string(static_cast<std::size_t>(digits), mark);
}

Style figure(std::string format) {
    return Style{}.numbered(std::move(format)).to(Style::Side::right);
}

} // namespace

Style title() { return Style{}.sized(16).bolded().coloured(accent); }

Style subtitle() { return Style{}.coloured(quiet); }

Style section() { return Style{}.sized(11).bolded().coloured(accent).over_line(); }

Style header() { return Style{}.bolded().wrapped().filled(band).to(Style::Side::left).indented(); }

Style header_right() { return Style{}.bolded().wrapped().filled(band).to(Style::Side::right); }

Style text() { return Style{}.to(Style::Side::left).indented(); }

Style wrapped() { return text().wrapped(); }

Style label() { return text().coloured(quiet); }

Style count() { return figure("#,##0"); }

Style money(int digits) { return figure("#,##0" + decimals(digits, '0')); }

Style unit_price(int digits) {
    return figure(
        "#,##0" + decimals(digits, '0') +
        (digits == 0 ? decimals(4, '?') : std::string(static_cast<std::size_t>(4 - digits), '?')));
}

Style hours() { return figure("#,##0.000"); }

Style percent() { return figure("General\" %\""); }

Style one_decimal() { return figure("#,##0.0"); }

Style date() { return figure("yyyy-mm-dd"); }

Style changeable(const Style& style) { return style.filled(input); }

Style total(const Style& style) { return style.bolded().under_line(); }

} // namespace look
} // namespace backplate
