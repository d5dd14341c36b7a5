#include "pricing/panel/site_limits.h"

#include <algorithm>
#include <array>

namespace backplate {
namespace {

std::array<const SiteLimit*, 2> limits_of(const Site& site, const RuleBook& rules) {
    return {rules.find_site_limit("dust " + site.dust),
            rules.find_site_limit("corrosion " + site.corrosion)};
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
