#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace backplate {

/// Text as UTF-8 with the name of the encoding it came in: utf-8, utf-8-bom, utf-16-le, utf-16-be
/// or a code page. A byte order mark decides; without one strict UTF-8, else the 8-bit code page
/// in which most texts are among the words.
struct DecodedText {
    std::string utf8;
    std::string encoding;
};

/// Throws BadInput naming `name` where bytes with a UTF-8 or UTF-16 mark are not of that encoding.
DecodedText decode_text(const std::string& name, std::string_view bytes,
                        const std::vector<std::string>& words = {});

/// Whether the bytes are UTF-8 without overlong forms, surrogates or values above U+10FFFF.
bool is_utf8(std::string_view bytes);

/// Characters of UTF-8 text.
std::size_t character_count(std::string_view utf8);

/// Adds one character.
void append_utf8(std::string& text, char32_t code);

} // namespace backplate
