#include "reports/workbook/cell_text.h"

#include <cctype>

namespace backplate {
namespace {

constexpr std::size_t most_units = 32767;
constexpr std::string_view replacement = "\xEF\xBF\xBD";
constexpr std::string_view ellipsis = "…";

/// Length of the well-formed sequence at the front (RFC 3629) of a character that XML 1.0 allows;
/// 0 where there is none.
std::size_t sequence_length(std::string_view text) {
    const auto at = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = at(0);
    if (first < 0x80) return 1;
    const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    if (first < 0xC2 || first > 0xF4 || text.size() < length) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((at(i) & 0xC0) != 0x80) return 0;
    const unsigned char second = at(1);
    if (first == 0xE0 && second < 0xA0) return 0;
    if (first == 0xED && second > 0x9F) return 0;
    if (first == 0xF0 && second < 0x90) return 0;
    if (first == 0xF4 && second > 0x8F) return 0;
    if (first == 0xEF && second == 0xBF && at(2) >= 0xBE) return 0;
    return length;
}

/// `_xHHHH_` means the character HHHH to a reader of the file format.
bool looks_escaped(std::string_view text) {
    if (text.size() < 7 || text[0] != '_' || text[1] != 'x' || text[6] != '_') return false;
    for (std::size_t i = 2; i < 6; ++i)
        if (std::isxdigit(static_cast<unsigned char>(text[i])) == 0) return false;
    return true;
}

std::string_view shown(std::string_view character) {
    const auto first = static_cast<unsigned char>(character[0]);
    if (first == '\n' || (first >= 0x20 && first != 0x7F)) return character;
    return first == '\r' ? std::string_view() : std::string_view(" ");
}

} // namespace

std::string cell_text(std::string_view text) {
    std::string result;
    std::size_t units = 0, with_ellipsis = 0; // length at which "…" still fits
    while (!text.empty()) {
        const bool escaped = looks_escaped(text);
        const std::size_t length = sequence_length(text);
        const std::string_view piece = escaped       ? "_x005F_"
                                       : length == 0 ? replacement
                                                     : shown(text.substr(0, length));
        units += escaped ? piece.size() : piece.size() == 4 ? 2 : piece.empty() ? 0 : 1;
        if (units > most_units) return result.substr(0, with_ellipsis).append(ellipsis);
        result.append(piece);
        if (units < most_units) with_ellipsis = result.size();
        text.remove_prefix(length == 0 ? 1 : length);
    }
    return result;
}

std::string footer_text(std::string_view text, std::size_t most) {
    const std::string clean = cell_text(text);
    std::string result;
    std::size_t count = 0;
    for (std::size_t at = 0; at < clean.size();) {
        const std::size_t length = sequence_length(std::string_view(clean).substr(at));
        if (++count > most) return result.append(ellipsis);
        const std::string_view piece = std::string_view(clean).substr(at, length);
        if (piece == "&")
            result.append("&&");
        else
            result.append(piece == "\n" ? std::string_view(" ") : piece);
        at += length;
    }
    return result;
}

} // namespace backplate
