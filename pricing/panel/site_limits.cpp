#include "pricing/panel/site_limits.h"

#include <algorithm>
#include <array>

#include "pricing/panel/cooling.h"

namespace backplate {
namespace {

std::array<const SiteLimit*, 3> limits_of(const Site& site, const RuleBook& rules) {
    return {rules.find_site_limit("dust " + site.dust),
            rules.find_site_limit("corrosion " + site.corrosion),
            rules.find_site_limit("place " + site.place)};
}

} // namespace

bool place_allows_stage(const Site& site, const std::string& stage, const RuleBook& rules) {
    const auto limits = limits_of(site, rules);
    return std::all_of(limits.begin(), limits.end(), [&](const SiteLimit* limit) {
        return !limit || limit->allows_stage(stage);
    });
}

bool place_allows_material(const Site& site, const std::string& material, const RuleBook& rules) {
    const auto limits = limits_of(site, rules);
    return std::all_of(limits.begin(), limits.end(), [&](const SiteLimit* limit) {
        return !limit || limit->allows_material(material);
    });
}

std::string marks_of_place(const Site& site, const RuleBook& rules) {
    std::string text;
    for (const SiteLimit* limit : limits_of(site, rules)) {
        if (!limit || limit->marks.empty()) continue;
        std::string marks;
        bool met = false;
        for (const std::string& mark : limit->marks) {
            met = met || mark_meets(site.protection, mark, rules);
            marks += (marks.empty() ? "" : " or ") + mark;
        }
        if (!met) text += (text.empty() ? "" : ", ") + marks;
    }
    return text;
}

std::string allowed_materials(const Site& site, const RuleBook& rules) {
    std::string text;
    for (const Material& material : rules.materials)
        if (place_allows_material(site, material.key, rules))
            text += (text.empty() ? "" : ", ") + material.key;
    const bool any =
        std::all_of(rules.materials.begin(), rules.materials.end(), [&](const Material& material) {
            return place_allows_material(site, material.key, rules);
        });
    return any ? "" : text;
}

} // namespace backplate
