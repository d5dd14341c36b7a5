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

/// The demo price book with so many near copies of every part of a platform: as dear or dearer,
/// some hungrier, deeper or for cooler air, none better in anything.
inline std::vector<Part> with_near_copies(int copies) {
    std::vector<Part> parts = demo_parts();
    const std::size_t own = parts.size();
    Draws draws(911);
    for (std::size_t i = 0; i < own; ++i) {
        if (parts[i].platform.empty() || !parts[i].list) continue;
        for (int copy = 0; copy < copies; ++copy) {
            Part part = parts[i];
            part.key += "-" + std::to_string(copy);
            part.list = part.list->ratio(1000 + draws.between(0, 200), 1000);
            const int change = draws.between(0, 5);
            if (change == 0 && part.own_a) *part.own_a *= 1 + 0.01 * draws.between(1, 9);
            if (change == 1 && part.depth_mm) *part.depth_mm += draws.between(1, 9);
            if (change == 2 && part.max_c) *part.max_c -= draws.between(1, 9);
            parts.push_back(std::move(part));
        }
    }
    return parts;
}

} // namespace backplate
