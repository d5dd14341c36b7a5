#include <algorithm>
#include <string_view>

#include "pricing/panel/cooling.h"

namespace backplate {
namespace {

int digit(std::string_view mark, std::size_t at) {
    if (at >= mark.size() || mark[at] < '0' || mark[at] > '9') return -1; // X: not tested
    return mark[at] - '0';
}

/// One code against one code: "IP65" meets "IP54". A 0 asks nothing, an X offered proves nothing.
bool ip_code_meets(std::string_view offered, std::string_view asked) {
    const int solids = digit(offered, 2), water = digit(offered, 3);
    const int solids_asked = digit(asked, 2), water_asked = digit(asked, 3);
    if (solids_asked > 0 && solids < solids_asked) return false;
    if (water_asked <= 0) return true;
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

bool mark_meets(const std::string& offered, const std::string& asked, const RuleBook& rules) {
    if (asked.empty()) return true; // nothing is asked
    const std::string_view type = "Type ";
    const bool offered_type = offered.starts_with(type), asked_type = asked.starts_with(type);
    if (offered.empty() || offered_type != asked_type) return false;
    if (asked_type) {
        const auto row = rules.type_coverage.find(std::string_view(offered).substr(type.size()));
        if (row == rules.type_coverage.end()) return false;
        return std::find(row->second.begin(), row->second.end(),
                         std::string_view(asked).substr(type.size())) != row->second.end();
    }
    std::string_view rest = asked; // a dual demand: every code of it
    while (!rest.empty()) {
        const auto end = std::min(rest.find('/'), rest.size());
        if (!ip_meets(offered, rest.substr(0, end))) return false;
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return true;
}

bool part_meets(const Part& part, const std::string& asked, const RuleBook& rules) {
    return mark_meets(part.ip_mark, asked, rules) || mark_meets(part.type_mark, asked, rules);
}

const std::string& own_mark(const Part& part, const std::string& asked, const RuleBook& rules) {
    return mark_meets(part.type_mark, asked, rules) ? part.type_mark : part.ip_mark;
}

std::string finished_mark(const Part& enclosure, const Part* cooling, const std::string& asked,
                          const RuleBook& rules) {
    const std::string& body = own_mark(enclosure, asked, rules);
    if (!cooling || cooling->stage == "circulation_fan") return body;
    const std::string& part = own_mark(*cooling, asked, rules);
    if (mark_meets(body, part, rules)) return part;
    if (mark_meets(part, body, rules) || !mark_meets(body, asked, rules)) return body;
    return asked; // neither covers the other: what both meet
}

} // namespace backplate
