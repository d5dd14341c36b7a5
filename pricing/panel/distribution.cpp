#include "pricing/panel/distribution.h"

#include <algorithm>
#include <map>

#include "pricing/panel/load.h"

namespace backplate {
namespace {

constexpr double nothing_a = 1e-9;

/// What a load is for: one channel for each, the controller alone on its own. Source:
/// electrical-facts 6.
enum class Function { controller, modules, field_inputs, outputs, equipment };

/// A load that still looks for its channel.
struct OpenLoad {
    std::string text;
    double amps = 0;
    bool whole = true; ///< a device; else channels that may stand at two groups
    Function function = Function::equipment;
};

/// "QS-300/own_a" -> QS-300; empty where no part is among the factors.
std::string part_of(const Consumer& consumer) {
    for (const BasisInput& input : consumer.factors)
        if (input.from == BasisInput::From::part) return input.path.substr(0, input.path.find('/'));
    return {};
}

OpenLoad load_of(const Consumer& consumer, const SearchFacts& search) {
    const std::string part = part_of(consumer);
    OpenLoad load{part, consumer.all_on_a, consumer.point == Consumer::none, Function::modules};
    if (consumer.point == Consumer::none) {
        if (part.empty()) load.text = "current outputs";
        const Part* known = search.book->find(part);
        if (known && known->kind == "controller") load.function = Function::controller;
        return load;
    }
    const DemandLine& line = search.facts.demand.lines[consumer.point];
    const std::string& signal = line.points->signal;
    load.text = part.empty() ? signal + " to the field" : part + " for " + signal;
    load.function = line.signal->power == "switched" ? Function::outputs : Function::field_inputs;
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

/// Everything that the channels of one supply protect: 0 the main one, else 1 + its group.
std::vector<OpenLoad> protected_loads(const PanelDesign& design, const SearchFacts& search,
                                      std::size_t group) {
    const BoxFacts& facts = search.facts;
    std::vector<OpenLoad> loads;
    if (group == 0)
        for (const Consumer& consumer :
             chosen_consumers(facts, *design.arrangement, {}, *search.rules))
            add(loads, load_of(consumer, search));
    std::size_t equipment = 0; // the last of the fixed consumers
    for (const EquipmentFact& fact : facts.equipment)
        equipment += (fact.asked->quantity > 0 ? 1U : 0U) + (fact.group > 0 ? 1U : 0U);
    for (std::size_t i = 0; i + equipment < search.fixed.size(); ++i)
        if (search.fixed[i].group == group) add(loads, load_of(search.fixed[i], search));
    for (const EquipmentFact& fact : facts.equipment)
        if (group == 0 && fact.asked->quantity > 0)
            add(loads, {fact.part ? fact.part->key : fact.asked->text,
                        fact.asked->quantity * fact.amps_24v, fact.asked->quantity == 1});
    return loads;
}

/// The channels of one supply.
class Channels {
public:
    explicit Channels(std::vector<DistributedGroup> groups) : groups_(std::move(groups)) {
        for (const DistributedGroup& group : groups_) room_.push_back(group.rated.value);
        open_.resize(groups_.size(), true);
    }

    /// A load on a channel that nothing else may come to; false where the others would not carry
    /// the rest, or the channel not the load.
    bool put_alone(const OpenLoad& load, double rest) {
        double others = 0;
        for (std::size_t i = 1; i < room_.size(); ++i) others += room_[i];
        if (groups_.size() < 2 || load.amps > room_[0] + nothing_a || rest > others + nothing_a)
            return false;
        put(0, load.text, load.amps, false);
        open_[0] = false;
        return true;
    }
    /// A function's loads together on a channel that is still free; false where none carries them.
    bool put_together(const std::vector<OpenLoad>& loads) {
        double sum = 0;
        for (const OpenLoad& load : loads) sum += load.amps;
        for (std::size_t i = 0; i < groups_.size(); ++i) {
            if (!groups_[i].loads.empty() || room_[i] + nothing_a < sum) continue;
            for (const OpenLoad& load : loads) put(i, load.text, load.amps, false);
            return true;
        }
        return false;
    }
    /// Into the first channel with room for all of it.
    bool put_whole(const OpenLoad& load) {
        for (std::size_t i = 0; i < groups_.size(); ++i)
            if (open_[i] && room_[i] + nothing_a >= load.amps) {
                put(i, load.text, load.amps, false);
                return true;
            }
        return false;
    }
    /// From channel to channel; what is beyond all ratings stays at the last.
    void put_parts(const OpenLoad& load) {
        double left = load.amps;
        for (std::size_t i = 0; i < groups_.size() && left > nothing_a; ++i) {
            if (!open_[i]) continue;
            const bool last = i + 1 == groups_.size();
            const double amps = last ? left : std::min(left, room_[i]);
            if (amps <= nothing_a) continue;
            left -= amps;
            put(i, load.text, amps, left > nothing_a);
        }
    }
    std::vector<DistributedGroup> take() { return std::move(groups_); }

private:
    void put(std::size_t at, const std::string& text, double amps, bool goes_on) {
        groups_[at].loads.push_back({text, {amps}, goes_on});
        room_[at] -= amps;
    }

    std::vector<DistributedGroup> groups_;
    std::vector<double> room_;
    std::vector<bool> open_;
};

double total(const std::vector<OpenLoad>& loads) {
    double sum = 0;
    for (const OpenLoad& load : loads) sum += load.amps;
    return sum;
}

/// Function by function, each on a channel of its own as far as they reach; devices whole, then
/// what may be divided.
void fill(Channels& channels, std::vector<OpenLoad> loads) {
    std::vector<OpenLoad> left;
    const double all = total(loads);
    for (const Function function : {Function::controller, Function::modules, Function::field_inputs,
                                    Function::outputs, Function::equipment}) {
        std::vector<OpenLoad> own;
        for (const OpenLoad& load : loads)
            if (load.function == function) own.push_back(load);
        if (own.empty()) continue;
        const bool alone = function == Function::controller && own.size() == 1 &&
                           channels.put_alone(own.front(), all - own.front().amps);
        if (alone || channels.put_together(own)) continue;
        left.insert(left.end(), own.begin(), own.end());
    }
    std::stable_partition(left.begin(), left.end(),
                          [](const OpenLoad& load) { return load.whole; });
    for (const OpenLoad& load : left)
        if (!load.whole || !channels.put_whole(load)) channels.put_parts(load);
}

/// The channels of a part that the layout has not given to another supply yet.
std::vector<DistributedGroup> channels_of(const Part& part, int pieces, std::size_t supply,
                                          const Layout& layout, std::size_t& taken) {
    std::vector<DistributedGroup> groups;
    std::size_t met = 0;
    for (const PlacedDevice& device : layout.devices) {
        if (device.part != part.key || device.kind != "protection" || met++ < taken) continue;
        if (groups.size() == static_cast<std::size_t>(pieces)) break;
        groups.push_back({supply, device.id, device.part, {*part.rated_a}, {}});
    }
    taken += groups.size();
    return groups;
}

void add_before(std::vector<DistributedGroup>& groups, std::size_t supply,
                const std::vector<std::pair<const Part*, int>>& parts) {
    DistributedGroup before;
    before.supply = supply;
    for (const auto& [part, pieces] : parts)
        if (part->own_a.value_or(0) > 0)
            before.loads.push_back({part->key, {pieces * *part->own_a}, false});
    if (!before.loads.empty()) groups.push_back(std::move(before));
}

} // namespace

std::vector<DistributedGroup> distribute_24v(const PanelDesign& design, const SearchFacts& search,
                                             const Layout& layout) {
    std::vector<DistributedGroup> groups;
    std::map<const Part*, std::size_t> taken;
    const auto distribute = [&](const Part* part, int pieces, std::size_t supply, std::size_t group,
                                const std::vector<std::pair<const Part*, int>>& before) {
        if (!part) return;
        auto own = channels_of(*part, pieces, supply, layout, taken[part]);
        if (own.empty()) return;
        Channels channels(std::move(own));
        fill(channels, protected_loads(design, search, group));
        for (DistributedGroup& each : channels.take()) groups.push_back(std::move(each));
        add_before(groups, supply, before);
    };
    distribute(design.protection, design.protection_channels, 0, 0, other_consumers(design));
    std::size_t supply = design.supply.part ? 1 : 0;
    for (const GroupSupply& each : design.further) {
        std::vector<std::pair<const Part*, int>> before;
        if (each.protection) before.emplace_back(each.protection, each.channels);
        if (each.units.decoupler) before.emplace_back(each.units.decoupler, each.units.decouplers);
        distribute(each.protection, each.channels, supply++, each.group + 1, before);
    }
    return groups;
}

} // namespace backplate
