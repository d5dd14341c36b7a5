#pragma once

#include <string>
#include <vector>

namespace backplate {

/// "A", "A and B", "A, B and C", with another `last` word as wanted; empty for none.
inline std::string listed(const std::vector<std::string>& words, const std::string& last = "and") {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i)
        text += (i == 0 ? "" : i + 1 == words.size() ? " " + last + " " : ", ") + words[i];
    return text;
}

} // namespace backplate
