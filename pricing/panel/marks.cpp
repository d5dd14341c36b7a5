#include <algorithm>
#include <array>
#include <string_view>

#include "pricing/panel/cooling.h"

namespace backplate {
namespace {

/// What a type covers besides itself, of those that a request may name.
/// Source: NEMA 250 application matrix as reprinted (tests/SOURCES.md, S21 and S24), in part from
/// memory: indoor 12 and 13 cover 1, 2, 5; outdoor types cover the lesser outdoor ones.
struct TypeCovers {
    std::string_view type, covers;
};
constexpr std::array<TypeCovers, 16> type_covers{{
    {"1", "1"},
    {"2", "1 2"},
    {"3", "1 2 3 3R 5 12 12K"},
    {"3R", "1 2 3R"},
    {"3S", "1 2 3 3R 3S 5 12 12K"},
    {"3X", "1 2 3 3R 3X 3RX 5 12 12K"},
    {"3RX", "1 2 3R 3RX"},
    {"3SX", "1 2 3 3R 3S 3X 3RX 3SX 5 12 12K"},
    {"4", "1 2 3 3R 4 5 12 12K"},
    {"4X", "1 2 3 3R 3X 3RX 4 4X 5 12 12K"},
    {"5", "1 2 5"},
    {"6", "1 2 3 3R 4 5 6 12 12K"},
    {"6P", "1 2 3 3R 3X 3RX 4 4X 5 6 6P 12 12K"},
    {"12", "1 2 5 12"},
    {"12K", "1 2 5 12 12K"},
    {"13", "1 2 5 12 12K 13"},
}};

bool holds_word(std::string_view list, std::string_view word) {
    while (!list.empty()) {
        const auto end = std::min(list.find(' '), list.size());
        if (list.substr(0, end) == word) return true;
        list.remove_prefix(std::min(end + 1, list.size()));
    }
    return false;
}

int digit(std::string_view mark, std::size_t at) {
    if (at >= mark.size() || mark[at] < '0' || mark[at] > '9') return -1; // X: not tested
    return mark[at] - '0';
}

/// One code against one code: "IP65" meets "IP54".
bool ip_code_meets(std::string_view offered, std::string_view asked) {
    const int solids = digit(offered, 2), water = digit(offered, 3);
    const int solids_asked = digit(asked, 2), water_asked = digit(asked, 3);
    if (solids < solids_asked) return false;
    if (water_asked < 0) return true;
    if (water <= 6 || water_asked > 6)
        return water_asked <= 6 ? water >= water_asked : water == water_asked;
    return water_asked <= 4; // immersion or hot jets prove no jets
}

bool ip_meets(std::string_view offered, std::string_view asked) {
    while (!offered.empty()) {
        const auto end = std::min(offered.find('/'), offered.size());
        if (ip_code_meets(offered.substr(0, end), asked)) return true;
        offered.remove_prefix(std::min(end + 1, offered.size()));
    }
    return false;
}

} // namespace

bool mark_meets(const std::string& offered, const std::string& asked) {
    const std::string_view type = "Type ";
    const bool offered_type = offered.starts_with(type), asked_type = asked.starts_with(type);
    if (offered.empty() || offered_type != asked_type) return false;
    if (asked_type) {
        const auto row =
            std::find_if(type_covers.begin(), type_covers.end(), [&](const auto& entry) {
                return entry.type == std::string_view(offered).substr(type.size());
            });
        return row != type_covers.end() &&
               holds_word(row->covers, std::string_view(asked).substr(type.size()));
    }
    std::string_view rest = asked; // a dual demand: every code of it
    while (!rest.empty()) {
        const auto end = std::min(rest.find('/'), rest.size());
        if (!ip_meets(offered, rest.substr(0, end))) return false;
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return true;
}

bool part_meets(const Part& part, const std::string& asked) {
    return mark_meets(part.ip_mark, asked) || mark_meets(part.type_mark, asked);
}

} // namespace backplate
