#pragma once

#include <cstdint>
#include <string>

namespace backplate {

/// "1 line", "2 lines": a count with a word that takes an s.
inline std::string counted(std::int64_t count, const char* word) {
    return std::to_string(count) + " " + word + (count == 1 ? "" : "s");
}

inline std::string counted(std::size_t count, const char* word) {
    return counted(static_cast<std::int64_t>(count), word);
}

inline std::string counted(int count, const char* word) {
    return counted(std::int64_t{count}, word);
}

} // namespace backplate
