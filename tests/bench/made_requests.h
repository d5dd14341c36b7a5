#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "tests/pricing/sample_books.h"

namespace backplate {

/// Shares of the signals in percent: invented; `plain` is four signals, `wide` nine.
struct MadeMix {
    const char* name;
    std::vector<std::pair<std::string, int>> parts;
};

inline const std::vector<MadeMix>& made_mixes() {
    static const std::vector<MadeMix> all{
        {"plain", {{"DI", 55}, {"DO", 25}, {"AI_MA", 15}, {"AO_MA", 5}}},
        {"wide",
         {{"DI", 40},
          {"DO", 20},
          {"DO_RELAY", 6},
          {"AI_MA", 12},
          {"AI_V", 5},
          {"AO_MA", 5},
          {"AO_V", 2},
          {"RTD", 8},
          {"CNT", 2}}}};
    return all;
}

/// So many boxes, each with so many points and 20 % spare.
inline std::string made_request(const MadeMix& mix, int points, int boxes = 1) {
    std::vector<std::pair<std::string, int>> lines;
    for (const auto& [signal, percent] : mix.parts)
        lines.emplace_back(signal, std::max(1, points * percent / 100));
    std::string list;
    for (int i = 0; i < boxes; ++i)
        list += (list.empty() ? "" : ", ") + (R"({"points": [)" + points_text(lines)) +
                R"(], "site": {"ambient_c": [0, 40]}})";
    return R"({"format": "backplate-request/1", "spare": {"percent": {"default": 20}}, "boxes": [)" +
           list + "]}";
}

} // namespace backplate
