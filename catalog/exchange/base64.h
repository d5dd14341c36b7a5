#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace backplate {

/// Bytes as text of RFC 4648, 4, with padding.
std::string base64(std::string_view bytes);

/// The bytes back; nothing where the text is not the one that base64 makes of some bytes.
std::optional<std::string> from_base64(std::string_view text);

} // namespace backplate
