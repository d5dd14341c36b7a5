#pragma once

#include <map>
#include <string>
#include <vector>

#include "pricing/book/price_book.h"
#include "pricing/mix/demand.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// Rows of the plate share their height and their ducts by band.
enum class Band { mains, supply, platform, other, terminals };

/// One piece of equipment named in the request, with what the price book adds.
struct EquipmentFact {
    const Equipment* asked = nullptr;
    const Part* part = nullptr; ///< null: by text
    std::string where;          ///< rail, plate, door, outside
    Band band = Band::other;
    double width_mm = 0, height_mm = 0, depth_mm = 0;
    double inside_w = 0; ///< heat of one piece that stays in the box
    double amps_24v = 0; ///< of one piece
    bool heat_known = true;
};

/// Interfaces (relays) of one line.
struct InterfaceFact {
    std::size_t line = 0; ///< of Demand::lines
    const Part* part = nullptr;
    int count = 0;
};

/// What counts per channel of a line.
struct LineWiring {
    const Rule* terminals = nullptr; ///< wired direct
    const Rule* wires = nullptr;
    const Rule* via_terminals = nullptr; ///< through the interface, if there is one
    const Rule* via_wires = nullptr;
    int via = 0, direct = 0; ///< channels wired either way, without channels beyond the requirement
};

/// Everything about a box that no choice of modules, supply or enclosure changes.
struct BoxFacts {
    const Box* box = nullptr;
    const BidRequest* request = nullptr;
    std::size_t first_point = 0; ///< place of the box's first entry in the estimate's points
    Demand demand;
    std::vector<InterfaceFact> interfaces;
    std::vector<EquipmentFact> equipment;
    std::vector<LineWiring> wiring;  ///< by Demand::lines
    std::vector<int> planned;        ///< by Demand::lines: channels that draw current and are wired
    std::vector<std::string> limits; ///< what cannot be done, in words; empty: go on
};

/// May the engine choose this part for the box: not excluded, delivered, priced, of the practice.
bool may_choose(const Part& part, const Box& box, const BidRequest& request);

/// Does the part run on the site's mains: voltage within its input range, no more phases than there
/// are. A part that states no range fits.
bool fits_mains(const Part& part, const Site& site);

/// The cheapest part of a kind that may be chosen and for which `fits` holds; ties by key.
const Part* cheapest(const PriceBook& book, std::string_view kind, const BoxFacts& facts,
                     bool (*fits)(const Part&, double), double need);

BoxFacts box_facts(const BidRequest& request, const Box& box, const PriceBook& book,
                   const RuleBook& rules);

} // namespace backplate
