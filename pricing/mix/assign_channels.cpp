#include "pricing/mix/assign_channels.h"

#include <algorithm>
#include <map>

#include "pricing/mix/group_channels.h"
#include "pricing/mix/pack_devices.h"

namespace backplate {
namespace {

/// A channel that a row of points requires.
struct Wanted {
    const PointLine* points = nullptr;
    int entry = -1; ///< -1: spare
};

using WantedList = std::vector<Wanted>;

std::string device_of(const Wanted& wanted) {
    const auto at = static_cast<std::size_t>(wanted.entry);
    const auto& list = wanted.points->list;
    return wanted.entry >= 0 && at < list.size() ? list[at].device : std::string();
}

/// All channels of a mix line: the points of its rows, then their spare.
WantedList wanted_of(const Demand& demand, const MixLine& mix) {
    WantedList wanted;
    for (const std::size_t line : mix.lines)
        for (int i = 0; i < demand.lines[line].used; ++i)
            wanted.push_back({demand.lines[line].points, i});
    for (const std::size_t line : mix.lines)
        for (int i = demand.lines[line].used; i < demand.lines[line].required; ++i)
            wanted.push_back({demand.lines[line].points, -1});
    return wanted;
}

/// Shares the channels out among places of so many, devices whole where it can be; within a place
/// they keep their order.
std::vector<WantedList> share_out(const WantedList& wanted, const std::vector<int>& places) {
    std::vector<std::vector<std::size_t>> devices;
    std::map<std::string, std::size_t> known;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const std::string device = device_of(wanted[i]);
        const auto [at, fresh] = known.try_emplace(device, devices.size());
        if (device.empty() || fresh) devices.emplace_back();
        (device.empty() ? devices.back() : devices[at->second]).push_back(i);
    }
    std::vector<int> sizes;
    for (const auto& device : devices) sizes.push_back(static_cast<int>(device.size()));
    const Packing packing = pack_devices(sizes, places);
    std::vector<std::vector<std::size_t>> held(places.size());
    for (std::size_t i = 0; i < devices.size(); ++i) {
        std::size_t next = 0;
        for (const Piece& piece : packing[i])
            for (int k = 0; k < piece.points; ++k) held[piece.place].push_back(devices[i][next++]);
    }
    std::vector<WantedList> shared(places.size());
    for (std::size_t place = 0; place < places.size(); ++place) {
        std::sort(held[place].begin(), held[place].end());
        for (const std::size_t at : held[place]) shared[place].push_back(wanted[at]);
    }
    return shared;
}

/// By use, by group, the channels carried, line after line.
using Carried = std::vector<std::vector<WantedList>>;
using Groups = std::vector<std::vector<GroupChannels>>;

void carry_line(const Demand& demand, std::size_t mix, const std::vector<const ModuleUse*>& uses,
                const Groups& groups, Carried& carried) {
    std::vector<int> of_uses;
    for (const ModuleUse* use : uses) of_uses.push_back(use->carried[mix]);
    const auto by_use = share_out(wanted_of(demand, demand.mix[mix]), of_uses);
    for (std::size_t use = 0; use < uses.size(); ++use) {
        std::vector<int> of_groups;
        for (const GroupChannels& group : groups[use]) of_groups.push_back(group.carried[mix]);
        const auto by_group = share_out(by_use[use], of_groups);
        for (std::size_t at = 0; at < by_group.size(); ++at)
            carried[use][at].insert(carried[use][at].end(), by_group[at].begin(),
                                    by_group[at].end());
    }
}

std::vector<AssignedChannel> numbered(const Demand& demand, const std::vector<WantedList>& carried,
                                      const std::vector<GroupChannels>& groups) {
    std::vector<AssignedChannel> channels;
    for (std::size_t at = 0; at < groups.size(); ++at) {
        const auto add = [&](const PointLine* points, int entry) {
            channels.push_back(
                {static_cast<int>(channels.size()) + 1, static_cast<int>(at) + 1, points, entry});
        };
        for (const Wanted& wanted : carried[at]) add(wanted.points, wanted.entry);
        for (std::size_t mix = 0; mix < demand.mix.size(); ++mix)
            for (int i = 0; i < groups[at].extra[mix]; ++i)
                add(demand.lines[demand.mix[mix].lines.front()].points, -1);
        for (int i = 0; i < groups[at].idle; ++i) add(nullptr, -1);
    }
    return channels;
}

} // namespace

std::vector<std::vector<AssignedChannel>> assign_channels(const std::vector<const ModuleUse*>& uses,
                                                          const Demand& demand) {
    std::vector<bool> mains;
    for (const MixLine& mix : demand.mix)
        mains.push_back(demand.lines[mix.lines.front()].module->mains_level);
    Groups groups;
    Carried carried;
    for (const ModuleUse* use : uses) {
        groups.push_back(group_channels(*use, demand.mix, mains));
        carried.emplace_back(groups.back().size());
    }
    for (std::size_t mix = 0; mix < demand.mix.size(); ++mix)
        carry_line(demand, mix, uses, groups, carried);
    std::vector<std::vector<AssignedChannel>> assigned;
    for (std::size_t use = 0; use < uses.size(); ++use)
        assigned.push_back(numbered(demand, carried[use], groups[use]));
    return assigned;
}

} // namespace backplate
