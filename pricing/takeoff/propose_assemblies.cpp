#include "pricing/takeoff/propose_assemblies.h"

#include <algorithm>
#include <map>

namespace backplate {
namespace {

/// Points that an assembly brings for each piece, by its name in the order of the table.
std::vector<std::pair<std::string, SignalCounts>> points_of_assemblies(const RuleBook& rules) {
    std::vector<std::pair<std::string, SignalCounts>> assemblies;
    for (const AssemblyRow& row : rules.assemblies) {
        if (row.brings != AssemblyRow::Brings::points ||
            row.occurrence != AssemblyRow::Occurrence::each)
            continue;
        auto found = std::ranges::find(assemblies, row.assembly,
                                       &std::pair<std::string, SignalCounts>::first);
        if (found == assemblies.end())
            found = assemblies.insert(assemblies.end(), {row.assembly, {}});
        found->second[row.signal] += static_cast<int>(row.count.number());
    }
    return assemblies;
}

/// What stands before the last dot, in the spelling of the list.
std::string device_of(const std::string& tag) { return tag.substr(0, tag.rfind('.')); }

} // namespace

std::vector<ProposedAssembly> propose_assemblies(const Takeoff& takeoff, const RuleBook& rules) {
    std::map<std::pair<std::string, std::string>, SignalCounts> devices; ///< by panel and tag
    for (const TakenPoint& point : takeoff.points)
        if (!point.tag.empty())
            devices[{point.panel, device_of(point.tag)}][point.signal] += point.count;
    const auto assemblies = points_of_assemblies(rules);
    std::vector<ProposedAssembly> proposed;
    for (const auto& [device, counts] : devices) {
        int points = 0;
        for (const auto& [signal, count] : counts) points += count;
        std::vector<std::string> fits;
        for (const auto& [assembly, brings] : assemblies)
            if (points >= 2 && brings == counts) fits.push_back(assembly);
        if (fits.empty()) continue;
        const auto& panel = device.first;
        // Devices come panel by panel, so that only the proposals of this one are looked through.
        auto same = proposed.rbegin();
        while (same != proposed.rend() && same->panel == panel && same->assemblies != fits) ++same;
        if (same == proposed.rend() || same->panel != panel) {
            proposed.push_back({fits, panel, {}});
            same = proposed.rbegin();
        }
        same->tags.push_back(device.second);
    }
    return proposed;
}

} // namespace backplate
