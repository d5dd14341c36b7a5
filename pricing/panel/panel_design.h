#pragma once

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "pricing/cost/drivers.h"
#include "pricing/cost/labour.h"
#include "pricing/mix/arrange.h"
#include "pricing/panel/cold.h"
#include "pricing/panel/cooling.h"
#include "pricing/panel/load.h"
#include "pricing/panel/room_rule.h"
#include "pricing/panel/suite.h"
#include "pricing/panel/supply_groups.h"

namespace backplate {

struct PanelDesign;
struct SearchFacts;

/// Articles that every panel of the box takes, chosen once: the cheapest that fits.
struct FixedParts {
    const Part* terminal = nullptr; ///< plain feed-through terminal
    /// Terminals that the wiring of the lines asks for by function; a function without a part of
    /// its own is served by the plain terminal and stands in `plain_instead`.
    std::vector<std::pair<std::string, const Part*>> own_terminals;
    std::vector<std::string> plain_instead;
    const Part* rail = nullptr;
    const Part* wire = nullptr;
    std::vector<const Part*> protections;   ///< channels that carry the largest single consumer
    const Part* cheapest_breaker = nullptr; ///< of any rating, for a lower bound
    const Part* cheapest_switch = nullptr;  ///< null where the rules ask for none
    std::vector<const Part*> ducts;         ///< by width
    const Part* joining = nullptr; ///< what joins two enclosures; null: the price book has none
    std::map<std::string, const Part*> bus_extensions; ///< by platform; none or null: no such part
    std::vector<std::string> missing;

    /// Null where the price book has none for the platform.
    const Part* bus_extension(const std::string& platform) const {
        const auto found = bus_extensions.find(platform);
        return found == bus_extensions.end() ? nullptr : found->second;
    }
    const Part* terminal_of(const std::string& function) const {
        for (const auto& [own, part] : own_terminals)
            if (own == function) return part;
        return terminal;
    }
};
FixedParts fixed_parts(const PriceBook& book, const BoxFacts& facts, const RuleBook& rules);

/// The incoming devices, their conductor and what it takes. Every feed has the same ones, for each
/// may carry the whole load.
struct IncomingChoice {
    const Part* breaker = nullptr;
    const Part* main_switch = nullptr; ///< null where the rules ask for none
    int switches = 0;                  ///< pieces per feed
    const Conductor* conductor = nullptr;
    Amperes conductor_a;                  ///< what it carries in the air of the place
    const Part* wire = nullptr;           ///< of the conductor's size
    const Part* terminal = nullptr;       ///< that takes the conductor
    const Part* earth_terminal = nullptr; ///< the same for the protective conductor
    std::int64_t price = 0; ///< of what differs between breakers, all feeds, ten-thousandths
    Amperes load;
};

/// May the breaker stand before a feed of the box: of the standard ratings of the practice, opens
/// the poles asked and stands the stated fault current.
bool serves_as_incoming(const Part& part, const BoxFacts& facts);

/// Every breaker of the standard ratings of the practice that opens the poles asked and stands the
/// stated fault current, with its switch, conductor, wire and terminals: by price, then by rating.
/// Conductor at or above the device's rating and not below the smallest allowed. None where the
/// price book or the tables end.
/// Source: electrical-facts 1, 2 (NEC 210.20(A), 409.20; IEC 60364-4-43 from memory).
std::vector<IncomingChoice> incoming_choices(const PriceBook& book, const BoxFacts& facts,
                                             const FixedParts& parts);

/// The first of the choices at or above the load (north_america: × the factor for continuous load)
/// that lets the peak of the supplies pass when they are switched on together.
std::optional<IncomingChoice> choose_incoming(const std::vector<IncomingChoice>& choices,
                                              const BoxFacts& facts, Amperes load,
                                              Amperes peak = {});

/// Rating that a breaker needs to let such a peak pass; 0 where no row says what it bears.
/// Source: climate-and-supply 5.3 (from memory).
Amperes rating_for_peak(Amperes peak, const RuleBook& rules);

/// Factor on the load before a rating is chosen; nothing where the practice has none.
const Rule* continuous_factor(const BoxFacts& facts);

/// Inside wires of the incoming conductor's size, of all feeds, among the wires counted.
std::int64_t incoming_wires(const BoxFacts& facts);

/// The thinnest conductor for what each unit of a supply may give, amperes, beside the wires of the
/// units that carry the load together; null above the table.
const Conductor* supply_conductor(const BoxFacts& facts, double unit_a, int together);

/// What that conductor carries where it lies, A; nothing without a supply.
std::optional<double> supply_wire_ampacity(const PanelDesign& design, const SearchFacts& search);

/// Room in which the incoming conductor bends at its terminals, mm; nothing where none is asked or
/// the conductor is not known yet.
std::optional<double> bending_at_terminals(const PanelDesign& design, const SearchFacts& search);

/// The cheapest wire of that size for the side that a supply feeds; the plain wire where it is
/// thick enough or where the price book does not tell sizes. Null where the price book has none of
/// the size.
const Part* supply_wire(const PriceBook& book, const BoxFacts& facts, const FixedParts& parts,
                        double unit_a, int together);

/// So many terminals of one article.
struct TerminalCount {
    const Part* part = nullptr;
    std::int64_t pieces = 0;
};

/// One line of the bill before it is priced.
struct BillItem {
    const Part* part = nullptr; ///< null: equipment by text
    const EquipmentFact* equipment = nullptr;
    std::string role;
    std::int64_t quantity = 0;
    double width_mm = 0;                 ///< of a part that states none
    const SmallPartRow* small = nullptr; ///< row that adds it; null: no small part
    std::int64_t counted = 0;            ///< what the pieces of a small part are for
    double least_mm = 0, most_mm = 0;    ///< of a gland: diameters of its cables
};

/// A whole panel: everything that was chosen, and what follows from it.
struct PanelDesign {
    const Part* leader = nullptr; ///< controller, head, or what stands for none
    std::shared_ptr<const Arrangement> arrangement;
    bool mix_proven = true;
    std::int64_t more_width = 0; ///< of modules still to be chosen, at least; 0.1 mm
    SupplyChoice supply;         ///< the main one
    std::span<const GroupSupply> further =
        {}; ///< of groups of their own; they live with the search
    CoolingStage stage;
    std::size_t stage_index = 0;
    Suite enclosure;
    RoomNeed need;
    RoomPlan room;
    IncomingChoice incoming;
    const Part* supply_wire = nullptr; ///< 24 V side of the supplies
    const Part* backup = nullptr;      ///< null where none is asked
    int backup_pieces = 0;
    std::optional<Heating> heating; ///< nothing where none is needed, or the price book lacks it
    ColdNeed cold;                  ///< what the cold asks for
    const Part* protection = nullptr;
    int protection_channels = 0;
    double protected_a = 0;      ///< load that the channels share
    int feeds_without_gland = 0; ///< whose cable no gland of the rows and parts takes
    int terminals = 0, signal_terminals = 0, wires = 0;
    std::vector<TerminalCount> terminal_counts; ///< the terminals by article
    BoxLoad load;                               ///< before future load, without supply loss
    Amperes together, all_on;                   ///< with future load
    Watts inside;                               ///< with supply loss
    Celsius limit;                              ///< of the devices, less the reserve
    std::vector<BillItem> bill;                 ///< without sundries
    std::int64_t material = 0;                  ///< of the bill of one box, ten-thousandths
    BoxCounts counts;
    std::int64_t direct_cost = 0; ///< unrounded, ten-thousandths
};

} // namespace backplate
