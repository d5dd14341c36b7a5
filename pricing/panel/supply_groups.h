#pragma once

#include <string_view>
#include <utility>
#include <vector>

#include "pricing/panel/control_transformer.h"
#include "pricing/panel/supply.h"

namespace backplate {

struct SearchFacts;

/// Function of the parts of the kind protection that protect a transformer's sides.
constexpr std::string_view control_fuse = "control fuse";

/// Protection of one side of a control transformer.
struct SideProtection {
    double rated_a = 0; ///< of the transformer on this side
    DeviceLimit limit;
    const Part* part = nullptr; ///< null: the price book has none within the limit
    int pieces = 0;             ///< 0: none is asked on this side
};

/// The supply of a group of its own. Its load is fixed, so is everything that follows from it.
struct GroupSupply {
    std::size_t group = 0; ///< of BoxFacts::groups
    SupplyChoice units;    ///< of a control transformer: part, one piece, no row of losses
    const Part* protection = nullptr; ///< channels at the control voltage; null: none
    int channels = 0;
    double protected_a = 0;   ///< everything on, with future load, without the channels' own
    Amperes together, all_on; ///< with future load and what stands before the loads
    Watts loss, own_w; ///< of supply or transformer; of channels and decoupling by their current
    SideProtection primary, secondary; ///< of a transformer
    double watts_at_mains = 0;         ///< W of a supply, VA of a transformer, loss included
    Celsius highest_air;               ///< at which it still carries its load

    bool transforms() const { return units.part && !units.loss; }
    Amperes rated() const;
    /// Everything on the bill, by role.
    std::vector<std::pair<const Part*, int>> parts() const;
    std::int64_t price() const; ///< of these, ten-thousandths
};

/// One supply for every group that has a load and that the price book can feed.
struct FurtherSupplies {
    std::vector<GroupSupply> groups;
    std::int64_t price = 0;
};

/// Every way to supply the groups that may be part of the cheapest panel, by price; one without
/// any group where the box has none. Supplies and transformers that another one stands in for are
/// left out, but for articles that the main supply may be too: their lines become one.
std::vector<FurtherSupplies> further_supplies(const SearchFacts& search);

/// Supplies or transformers that carry the group, none left out; empty where there is none.
std::vector<GroupSupply> group_choices(const SearchFacts& search, std::size_t group);

/// Places of the groups that draw current and that nothing in the price book feeds.
std::vector<std::size_t> unfed_groups(const SearchFacts& search);

/// Current of what lies on the mains as they come, all on one line, with future load.
Amperes direct_on_mains(const SearchFacts& search);

} // namespace backplate
