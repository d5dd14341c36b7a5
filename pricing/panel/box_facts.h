#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "pricing/book/price_book.h"
#include "pricing/mix/demand.h"
#include "pricing/panel/mains.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// Rows of the plate share their height and their ducts by band.
enum class Band { mains, supply, platform, other, terminals };

/// Loads with a supply of their own beside the main one, or on the mains as they come.
struct LoadGroup {
    std::string word; ///< of supplies[].group: outputs, other_voltage
    double volts = 24;
    bool alternating = false;
    bool on_mains = false; ///< at a voltage of the mains: no supply stands before them
};

/// One piece of equipment named in the request, with what the price book adds.
struct EquipmentFact {
    const Equipment* asked = nullptr;
    const Part* part = nullptr; ///< null: by text
    std::string where;          ///< rail, plate, door, outside
    Band band = Band::other;
    double width_mm = 0, height_mm = 0, depth_mm = 0;
    double inside_w = 0;   ///< heat of one piece that stays in the box
    double amps_24v = 0;   ///< of one piece
    std::size_t group = 0; ///< of its current at another voltage: 1 + place in groups; 0: none
    bool heat_known = true;
    bool of_assembly = false; ///< its wires and minutes come with the assembly
};

/// Interfaces (relays, isolators, arresters …) of one line.
struct InterfaceFact {
    std::size_t line = 0; ///< of Demand::lines
    const Part* part = nullptr;
    int count = 0; ///< pieces
};

/// Terminals of a channel with a function of their own.
struct TerminalShare {
    std::string function;
    int pieces = 0;
};

/// What one channel of a line brings, wired in one way.
struct ChannelWiring {
    std::vector<const Rule*> terminals, wires; ///< rows whose values add up
    std::vector<TerminalShare> functions;      ///< of the terminals, none of them plain
    int channels = 0;                          ///< without channels beyond the requirement
};

/// What counts per channel of a line.
struct LineWiring {
    ChannelWiring direct;
    ChannelWiring via; ///< through the interface, if there is one
};

/// A row of an assembly and how often the box takes it.
struct AssemblyFact {
    const AssemblyRow* row = nullptr;
    int times = 0;
};

/// Surge arresters that the place or the circumstances ask for.
struct SurgeFact {
    const SurgeRow* row = nullptr;  ///< null: none are asked for
    bool by_hand = false;           ///< the request names one among its equipment
    const Part* arrester = nullptr; ///< one for each feed; null: none fits, or by hand
    const Part* breaker = nullptr;  ///< before each arrester; null: none asked or none fits
};

/// How spare modules count while a box is sized.
struct SpareModules {
    ModuleChannels counted; ///< by signal: channels that a spare module counts
    ModuleChannels most;    ///< by signal: no module with more channels of it; absent: any
};

/// What the other boxes of a job settle before a box is sized.
struct JobShare {
    std::string platform;    ///< of the system; empty: any that the choices allow
    int heads_elsewhere = 0; ///< box with the controller: stations that it leads in other boxes
    std::optional<int> most_stations; ///< led box: stations at most
    PlacedSpare spare;                ///< spare over the job: what of it this box takes
};

/// Everything about a box that no choice of modules, supply or enclosure changes.
struct BoxFacts {
    const Box* box = nullptr;
    const BidRequest* request = nullptr;
    const RuleBook* rules = nullptr;
    std::size_t first_point = 0; ///< place of the box's first entry in the estimate's points
    SpareModules spare_modules;
    JobShare share;
    /// Stands for the controller of a box that has none: no price, no size, no channels.
    std::shared_ptr<const Part> no_controller;
    bool safety = false; ///< the controller is in this box and its system has safety points
    Demand demand;
    std::vector<InterfaceFact> interfaces;
    std::vector<EquipmentFact> equipment;
    std::vector<LoadGroup> groups; ///< beside the main supply
    /// What facts rest on that the request does not name: parts of assemblies, links and surges.
    std::vector<std::shared_ptr<const Equipment>> added_equipment;
    SurgeFact surge;
    std::vector<AssemblyFact> assemblies;
    int links = 0;                   ///< lines to other boxes of the system that end in one box
    std::vector<LineWiring> wiring;  ///< by Demand::lines
    std::vector<int> planned;        ///< by Demand::lines: channels that draw current and are wired
    std::vector<std::string> limits; ///< what cannot be done, in words; empty: go on
};

/// May the engine choose this part for the box: not excluded, delivered, priced, of the practice.
bool may_choose(const Part& part, const Box& box, const BidRequest& request);

/// The cheapest part of the row's kind and function that may be chosen, carries the amperes of the
/// field device and, where it takes the field voltage, fits it; null where there is none.
const Part* interface_part(const PriceBook& book, const BoxFacts& facts, const Interface& row,
                           const PointLine& points);

/// Current at 24 V and heat of one piece: the part's own data, else those of the row.
double interface_amps(const Part& part, const Interface& row);
double interface_watts(const Part& part, const Interface& row, double volts);

/// The cheapest part of a kind that may be chosen and for which `fits` holds; the first of equals;
/// null where there is none.
template <class Fits>
const Part* cheapest_where(const PriceBook& book, std::string_view kind, const BoxFacts& facts,
                           const Fits& fits) {
    const Part* best = nullptr;
    for (const Part* part : book.of_kind(kind)) {
        if (!may_choose(*part, *facts.box, *facts.request) || !fits(*part)) continue;
        if (!best || *part->net() < *best->net()) best = part;
    }
    return best;
}

/// As above by what a part must give or carry.
const Part* cheapest(const PriceBook& book, std::string_view kind, const BoxFacts& facts,
                     bool (*fits)(const Part&, double), double need);

/// As above by its function.
const Part* cheapest_of(const PriceBook& book, std::string_view kind, std::string_view function,
                        const BoxFacts& facts);

/// Holds points in use of a signal of the class safety.
bool holds_safety(const Box& box, const RuleBook& rules);

/// A piece of equipment with what its part adds.
EquipmentFact equipment_fact(const Equipment& asked, const PriceBook& book, double volts);

/// Adds so many pieces of a part to the equipment on the rail, which the request does not name.
EquipmentFact& add_equipment(BoxFacts& facts, const Part& part, int pieces, const PriceBook& book);

BoxFacts box_facts(const BidRequest& request, const Box& box, const PriceBook& book,
                   const RuleBook& rules, const SpareModules& spare_modules = {},
                   const JobShare& share = {});

} // namespace backplate
