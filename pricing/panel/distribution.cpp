#include "pricing/panel/distribution.h"

#include <algorithm>

#include "pricing/panel/load.h"

namespace backplate {
namespace {

constexpr double nothing_a = 1e-9;

/// A load that still looks for its channel.
struct OpenLoad {
    std::string text;
    double amps = 0;
    bool whole = true; ///< a device; else channels that may stand at two groups
};

/// "QS-300/own_a" -> QS-300; empty where no part is among the factors.
std::string part_of(const Consumer& consumer) {
    for (const BasisInput& input : consumer.factors)
        if (input.from == BasisInput::From::part) return input.path.substr(0, input.path.find('/'));
    return {};
}

OpenLoad load_of(const Consumer& consumer, const BoxFacts& facts) {
    const std::string part = part_of(consumer);
    OpenLoad load{part, consumer.all_on_a, consumer.point == Consumer::none};
    if (consumer.point == Consumer::none) {
        if (part.empty()) load.text = "current outputs";
        return load;
    }
    const std::string& signal = facts.demand.lines[consumer.point].points->signal;
    load.text = part.empty() ? signal + " to the field" : part + " for " + signal;
    return load;
}

/// Loads by text: consumers of one text are one load.
void add(std::vector<OpenLoad>& loads, OpenLoad load) {
    if (load.amps <= nothing_a) return;
    for (OpenLoad& known : loads)
        if (known.text == load.text) {
            known.amps += load.amps;
            known.whole = false;
            return;
        }
    loads.push_back(std::move(load));
}

/// Everything that the channels protect.
std::vector<OpenLoad> protected_loads(const PanelDesign& design, const SearchFacts& search) {
    const BoxFacts& facts = search.facts;
    std::vector<OpenLoad> loads;
    for (const Consumer& consumer : chosen_consumers(facts, *design.arrangement, {}, *search.rules))
        add(loads, load_of(consumer, facts));
    std::size_t equipment = 0;
    for (const EquipmentFact& fact : facts.equipment)
        if (fact.asked->quantity > 0) ++equipment;
    const auto fixed = fixed_consumers(facts, *search.rules);
    for (std::size_t i = 0; i + equipment < fixed.size(); ++i) add(loads, load_of(fixed[i], facts));
    for (const EquipmentFact& fact : facts.equipment)
        if (fact.asked->quantity > 0)
            add(loads, {fact.part ? fact.part->key : fact.asked->text,
                        fact.asked->quantity * fact.amps_24v, fact.asked->quantity == 1});
    return loads;
}

class Channels {
public:
    explicit Channels(std::vector<DistributedGroup>& groups) : groups_(groups) {
        for (const DistributedGroup& group : groups) room_.push_back(group.rated.value);
    }

    /// Into the first channel with room for all of it.
    bool put_whole(const OpenLoad& load) {
        for (std::size_t i = 0; i < groups_.size(); ++i)
            if (room_[i] + nothing_a >= load.amps) {
                put(i, load.text, load.amps, false);
                return true;
            }
        return false;
    }
    /// From channel to channel; what is beyond all ratings stays at the last.
    void put_parts(const OpenLoad& load) {
        double left = load.amps;
        for (std::size_t i = 0; i < groups_.size() && left > nothing_a; ++i) {
            const bool last = i + 1 == groups_.size();
            const double amps = last ? left : std::min(left, room_[i]);
            if (amps <= nothing_a) continue;
            left -= amps;
            put(i, load.text, amps, left > nothing_a);
        }
    }

private:
    void put(std::size_t at, const std::string& text, double amps, bool goes_on) {
        groups_[at].loads.push_back({text, {amps}, goes_on});
        room_[at] -= amps;
    }

    std::vector<DistributedGroup>& groups_;
    std::vector<double> room_;
};

} // namespace

std::vector<DistributedGroup> distribute_24v(const PanelDesign& design, const SearchFacts& search,
                                             const Layout& layout) {
    std::vector<DistributedGroup> groups;
    if (!design.protection) return groups;
    for (const PlacedDevice& device : layout.devices)
        if (device.part == design.protection->key && device.kind == "protection" &&
            groups.size() < static_cast<std::size_t>(design.protection_channels))
            groups.push_back({device.id, device.part, {*design.protection->rated_a}, {}});
    if (groups.empty()) return groups;
    auto loads = protected_loads(design, search);
    std::stable_partition(loads.begin(), loads.end(),
                          [](const OpenLoad& load) { return load.whole; });
    Channels channels(groups);
    for (const OpenLoad& load : loads)
        if (!load.whole || !channels.put_whole(load)) channels.put_parts(load);
    DistributedGroup before;
    for (const auto& [part, pieces] : other_consumers(design))
        if (part->own_a.value_or(0) > 0)
            before.loads.push_back({part->key, {pieces * *part->own_a}, false});
    if (!before.loads.empty()) groups.push_back(std::move(before));
    return groups;
}

} // namespace backplate
