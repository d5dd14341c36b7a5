#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "pricing/cost/charges.h"
#include "pricing/panel/chosen_parts.h"
#include "pricing/panel/cold.h"
#include "pricing/panel/housing.h"
#include "pricing/panel/mix_problem.h"
#include "pricing/panel/panel_design.h"
#include "pricing/panel/small_parts.h"

namespace backplate {

/// What a search over one box needs again and again; found once.
struct SearchFacts {
    ChosenParts chosen;              ///< what the choices leave of the price book
    PriceBook needed;                ///< of that what a search has to look at
    const PriceBook* book = nullptr; ///< needed
    const RuleBook* rules = nullptr;
    BoxFacts facts;
    FixedParts parts;
    LabourPlan plan;
    ChargePlan charges;
    std::vector<SupplyChoice> supplies;   ///< main ones
    std::vector<FurtherSupplies> further; ///< of groups of their own, by price; never empty
    std::vector<std::size_t> unfed;       ///< groups that nothing in the price book feeds
    Amperes direct;                       ///< on the mains as they come, with future load
    std::vector<IncomingChoice> incoming; ///< by price
    std::vector<CoolingStage> stages;
    HeatingParts heating;             ///< for the cold and switched-off box
    std::vector<const Part*> backups; ///< that may keep the box alive without mains
    Housing housing;                  ///< what the devices may be built on or into
    SmallParts small;                 ///< small parts that are lines of the bill
    std::vector<Consumer> fixed;      ///< consumers that no choice changes
    bool without_24v = false; ///< equipment only, and none of it draws at 24 V: no supply is taken
    int least_cutout = 100;   ///< lowest factor of a candidate on openings, hundredths
    std::array<std::int64_t, 5> widest{}; ///< by Band, over everything that may be chosen; 0.1 mm
    std::int64_t tallest_module = 0;      ///< of the platforms that may be chosen; 0.1 mm
};

/// Why a candidate is not admissible.
enum class Refusal { none, supply, backup, incoming, depth, room, heat };

/// What a price in one box comes to in all boxes of the kind, ten-thousandths.
inline std::int64_t in_all_boxes(std::int64_t price, const SearchFacts& search) {
    return price * search.facts.box->quantity;
}

/// From an arrangement to its devices, terminals and wires, with the direct cost of these alone: no
/// panel with this arrangement costs less. Part of the chain of one candidate: with_arrangement,
/// with_power, in_enclosure; each fills more of the design. Source: climate-and-supply 5.6.
PanelDesign with_arrangement(const SearchFacts& search, const PlatformCase& platform,
                             Arrangement arrangement);

/// The load without protection, fans and future load is already more than the supply carries at
/// its coolest: a quick look before the chain goes on.
bool too_weak(const PanelDesign& start, const SearchFacts& search, const SupplyChoice& supply);

/// A lower bound of the direct cost with this supply or a dearer one, the enclosure apart: cheapest
/// incoming device and switch, terminals and wire; without the supplies of groups of their own.
std::int64_t least_cost(const PanelDesign& start, const SearchFacts& search,
                        const SupplyChoice& supply);

/// Load, supply, incoming device, bill without enclosure, rail and duct, room asked; the direct
/// cost so far. Every one of the enclosures has a part of the stage. `further` must outlive the
/// design.
Refusal with_power(PanelDesign& design, const SearchFacts& search, const SupplyChoice& supply,
                   const FurtherSupplies& further, std::size_t stage, int enclosures = 1);

/// Peak current of all supplies behind one of so many feeds, switched on together.
Amperes peak_at_mains(const PanelDesign& design, int feeds);

/// The stage with its part once for every enclosure of a suite.
CoolingStage stage_of(const SearchFacts& search, std::size_t stage, int enclosures);

/// Depth, room and heat of one enclosure, plate or suite without what the cold may add: a heater
/// takes room and lowers no heat, so what is refused here is refused in any case. `room`: of the
/// design's need; `plan`: how the plates were divided.
Refusal look_into(const PanelDesign& design, const SearchFacts& search, const RoomDemand& room,
                  const Suite& enclosure, ShedTable& shed, std::optional<RoomPlan>& plan);

/// What devices ask of a plate, with the room that is to stay free.
RoomDemand room_demand(const RoomNeed& need, const SearchFacts& search);

/// Direct cost of a powered design in an enclosure without its bill being made; `powered` keeps
/// everything but the counts of its enclosure and lines. Exact where the cold asks for no heater,
/// else a lower bound. `plan`: how look_into divided the plate.
std::int64_t cost_in(PanelDesign& powered, const SearchFacts& search, const Suite& enclosure,
                     const RoomPlan& plan);

/// What the enclosure with its rail, duct and work adds at least to the direct cost of a design of
/// with_arrangement, and to that of any design made from it. Keeps all but the counts as above.
std::int64_t least_more_in(PanelDesign& design, const SearchFacts& search, const Suite& enclosure,
                           const RoomPlan& plan);

/// Depth, room and, where its walls are known, heat of one enclosure, plate or suite, then the
/// whole direct cost. A suite asks for a design that was powered for so many enclosures.
Refusal in_enclosure(PanelDesign& design, const SearchFacts& search, const Suite& enclosure,
                     ShedTable& shed);

/// Parts whose own power warms the box without being drawn at 24 V: mains fans, decoupling, backup.
std::vector<std::pair<const Part*, int>> warm_parts(const PanelDesign& design);

/// Cooler and heater that run on the mains, with their pieces; they never run together.
std::vector<std::pair<const Part*, int>> climate_parts(const PanelDesign& design);

/// Wires of the 24 V side of the main supplies, among the wires counted.
std::int64_t supply_wires(const PanelDesign& design, const SearchFacts& search);

/// Parts that draw at 24 V beside the platform and the devices asked: channels, fans, decoupling,
/// backup.
std::vector<std::pair<const Part*, int>> other_consumers(const PanelDesign& design);

/// The highest of the lowest temperatures that the parts of the bill allow; nothing where none
/// states one.
std::optional<double> parts_min_c(const PanelDesign& design);

/// The highest air that the devices on the bill allow, less the reserve.
Celsius device_limit(const PanelDesign& design, const SearchFacts& search);

/// The highest air at the top that devices and supply allow.
Celsius highest_top(const PanelDesign& design, const SearchFacts& search);

/// Net prices of the bill of one box, ten-thousandths.
std::int64_t material_of(const PanelDesign& design);

/// Unrounded direct cost of bill and counts for all boxes of the kind, ten-thousandths: material
/// with sundries, freight and the charges in percent, and labour.
std::int64_t direct_cost(const PanelDesign& design, const SearchFacts& search);

} // namespace backplate
