#include "catalog/exchange/base64.h"

#include <algorithm>
#include <cstdint>

namespace backplate {
namespace {

constexpr std::string_view letters =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr std::size_t bytes_in = 3, letters_out = 4, bits = 6;

} // namespace

std::string base64(std::string_view bytes) {
    std::string text;
    text.reserve((bytes.size() + bytes_in - 1) / bytes_in * letters_out);
    for (std::size_t at = 0; at < bytes.size(); at += bytes_in) {
        std::uint32_t group = 0;
        for (std::size_t i = 0; i < bytes_in; ++i)
            group = group << 8 |
                    (at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0U);
        const std::size_t held = std::min(bytes_in, bytes.size() - at);
        for (std::size_t i = 0; i < letters_out; ++i)
            text += i <= held ? letters[group >> (bits * (letters_out - 1 - i)) & 63U] : '=';
    }
    return text;
}

std::optional<std::string> from_base64(std::string_view text) {
    if (text.size() % letters_out != 0) return std::nullopt;
    std::string bytes;
    for (std::size_t at = 0; at < text.size(); at += letters_out) {
        std::uint32_t group = 0;
        std::size_t held = letters_out;
        for (std::size_t i = 0; i < letters_out; ++i) {
            const auto place = letters.find(text[at + i]);
            if (place == std::string_view::npos) held = std::min(held, i);
            group = group << bits | static_cast<std::uint32_t>(place & 63U) * (i < held);
        }
        if (held < 2) return std::nullopt;
        for (std::size_t i = 0; i + 1 < held; ++i)
            bytes += static_cast<char>(group >> (8 * (bytes_in - 1 - i)) & 255U);
    }
    if (base64(bytes) != text) return std::nullopt;
    return bytes;
}

} // namespace backplate
