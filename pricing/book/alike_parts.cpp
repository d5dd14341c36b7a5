#include "pricing/book/alike_parts.h"

#include <functional>
#include <set>
#include <string_view>
#include <unordered_map>

namespace backplate {
namespace {

/// The same for parts that are alike; others mostly differ.
std::size_t hash_of(const PartFacts& part) {
    const std::hash<std::string> text;
    std::size_t hash = text(part.kind);
    const auto mix = [&](std::size_t value) { hash = hash * 1099511628211U ^ value; };
    const std::hash<std::optional<double>> number;
    for (const std::string* word : {&part.function, &part.platform, &part.ip_mark, &part.stage})
        mix(text(*word));
    for (const auto* size : {&part.width_mm, &part.height_mm, &part.depth_mm, &part.own_a,
                             &part.own_w, &part.rated_a, &part.section_mm2, &part.flow_m3h})
        mix(number(*size));
    for (const ChannelGroup& group : part.groups) mix(static_cast<std::size_t>(group.channels));
    return hash;
}

std::set<std::string_view> named_by_others(const std::vector<Part>& parts) {
    std::set<std::string_view> named;
    for (const Part& part : parts) {
        for (const Accessory& accessory : part.accessories) named.insert(accessory.part);
        for (const Combination& combination : part.combinations) named.insert(combination.part);
    }
    return named;
}

} // namespace

std::vector<std::size_t> first_alike(const std::vector<Part>& parts) {
    const std::set<std::string_view> named = named_by_others(parts);
    std::unordered_map<std::size_t, std::vector<std::size_t>> firsts; // by hash
    std::vector<std::size_t> result;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        result.push_back(i);
        if (named.contains(parts[i].key)) continue;
        std::vector<std::size_t>& near = firsts[hash_of(parts[i])];
        for (const std::size_t first : near)
            if (static_cast<const PartFacts&>(parts[first]) == parts[i]) result.back() = first;
        if (result.back() == i) near.push_back(i);
    }
    return result;
}

} // namespace backplate
