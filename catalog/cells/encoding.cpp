#include "catalog/cells/encoding.h"

#include <algorithm>
#include <cstdint>

#include "catalog/cells/code_pages.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";
constexpr std::string_view little_mark = "\xFF\xFE";
constexpr std::string_view big_mark = "\xFE\xFF";

std::uint32_t byte_at(std::string_view bytes, std::size_t at) {
    return static_cast<unsigned char>(bytes[at]);
}

/// Bytes of the character that starts here; 0 where none does.
std::size_t utf8_length(std::string_view bytes, std::size_t at) {
    const std::uint32_t first = byte_at(bytes, at);
    if (first < 0x80) return 1;
    const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    if (first < 0xC2 || first > 0xF4 || at + length > bytes.size()) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte_at(bytes, at + i) & 0xC0) != 0x80) return 0;
    const std::uint32_t second = byte_at(bytes, at + 1);
    const bool outside = (first == 0xE0 && second < 0xA0) || (first == 0xED && second > 0x9F) ||
                         (first == 0xF0 && second < 0x90) || (first == 0xF4 && second > 0x8F);
    return outside ? 0 : length;
}

std::string from_utf16(const std::string& name, std::string_view bytes, bool little) {
    std::string text;
    const auto unit_at = [&](std::size_t at) {
        const auto low = byte_at(bytes, little ? at : at + 1);
        return low | byte_at(bytes, little ? at + 1 : at) << 8;
    };
    for (std::size_t at = 0; at < bytes.size(); at += 2) {
        char32_t code = at + 1 < bytes.size() ? unit_at(at) : 0xDC00;
        const bool leads = code >= 0xD800 && code < 0xDC00 && at + 3 < bytes.size();
        const char32_t next = leads ? unit_at(at + 2) : 0;
        if (next >= 0xDC00 && next < 0xE000) {
            code = 0x10000 + ((code - 0xD800) << 10) + (next - 0xDC00);
            at += 2;
        }
        if (code >= 0xD800 && code < 0xE000) {
            const auto line = 1 + std::count(text.begin(), text.end(), '\n');
            throw BadInput(name + ": line " + std::to_string(line) +
                           ": is no whole UTF-16 character; expected an undamaged file");
        }
        append_utf8(text, code);
    }
    return text;
}

} // namespace

void append_utf8(std::string& text, char32_t code) {
    const auto tail = [&](int shift) {
        text += static_cast<char>(0x80 | ((code >> shift) & 0x3F));
    };
    if (code < 0x80) {
        text += static_cast<char>(code);
    } else if (code < 0x800) {
        text += static_cast<char>(0xC0 | (code >> 6));
        tail(0);
    } else if (code < 0x10000) {
        text += static_cast<char>(0xE0 | (code >> 12));
        tail(6), tail(0);
    } else {
        text += static_cast<char>(0xF0 | (code >> 18));
        tail(12), tail(6), tail(0);
    }
}

bool is_utf8(std::string_view bytes) {
    std::size_t at = 0;
    while (at < bytes.size()) {
        const auto length = utf8_length(bytes, at);
        if (length == 0) return false;
        at += length;
    }
    return true;
}

std::size_t character_count(std::string_view utf8) {
    return static_cast<std::size_t>(std::count_if(utf8.begin(), utf8.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

DecodedText decode_text(const std::string& name, std::string_view bytes,
                        const std::vector<std::string>& words) {
    if (bytes.starts_with(little_mark))
        return {from_utf16(name, bytes.substr(2), true), "utf-16-le"};
    if (bytes.starts_with(big_mark)) return {from_utf16(name, bytes.substr(2), false), "utf-16-be"};
    if (bytes.starts_with(utf8_mark)) {
        bytes.remove_prefix(utf8_mark.size());
        if (!is_utf8(bytes))
            throw BadInput(name + ": is marked as UTF-8 but holds other bytes; expected UTF-8");
        return {std::string(bytes), "utf-8-bom"};
    }
    if (is_utf8(bytes)) return {std::string(bytes), "utf-8"};
    const auto page = likely_code_page(bytes, words);
    return {from_code_page(bytes, page), std::string(page)};
}

} // namespace backplate
