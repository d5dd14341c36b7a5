#include "pricing/panel/panel_bill.h"

#include <algorithm>

#include "pricing/panel/conductors.h"
#include "pricing/panel/layout.h"
#include "pricing/panel/work_counts.h"

namespace backplate {
namespace {

std::int64_t whole(const Rule& rule) { return round_to_steps(rule.value, 0, Rounding::up); }

std::int64_t wires_behind(const SupplyChoice& supply, const SearchFacts& search) {
    const auto row = search.rules->wires.find("supply output");
    return row == search.rules->wires.end() ? 0 : whole(row->second) * supply.quantity;
}

/// Rail and duct of the rows of the plates.
struct RailAndDuct {
    const Part* duct = nullptr;
    std::int64_t rails = 0, ducts = 0; ///< pieces
};

RailAndDuct rail_and_duct(const SearchFacts& search, const Suite& enclosure, const RoomPlan& plan) {
    const double plate_w = enclosure->plate_width_mm.value_or(0);
    const double plate_h = enclosure->plate_height_mm.value_or(0);
    const Part* duct = search.parts.ducts.front();
    const auto fits = [&](const Part& part) {
        return tenths(part.width_mm.value_or(0)) == plan.duct;
    };
    for (const Part* part : search.parts.ducts)
        if (fits(*part) && (!fits(*duct) || *part->net() < *duct->net())) duct = part;
    const double rail_mm = plan.total_rows * static_cast<double>(plan.rail) / 10;
    const double duct_mm = (plan.total_rows + plan.plates) * plate_w + 2 * plan.plates * plate_h;
    return {duct, need_in(rail_mm / search.parts.rail->length_mm, 1),
            need_in(duct_mm / duct->length_mm, 1)};
}

/// Direct cost with the enclosure and so much of rail and duct.
std::int64_t cost_with(PanelDesign& design, const SearchFacts& search, const Suite& enclosure,
                       int rows, const RailAndDuct& more) {
    const bool bought = search.housing.bought;
    std::int64_t material = design.material + more.rails * search.parts.rail->net()->steps() +
                            more.ducts * more.duct->net()->steps();
    if (bought && enclosure->net()) material += price_of(enclosure);
    const std::int64_t kits = search.parts.joining ? enclosure.joints() : 0;
    if (kits > 0) material += kits * search.parts.joining->net()->steps();
    BoxCounts& counts = design.counts;
    counts.bill_lines = lines_with_work(design) + 1 + (more.rails > 0 ? 1 : 0) +
                        (more.ducts > 0 ? 1 : 0) + (bought ? 1 : 0) + (kits > 0 ? 1 : 0);
    counts.rail_rows = rows;
    count_enclosure(counts, search.housing, enclosure);
    return with_charges(material * search.facts.box->quantity, labour_cost(search.plan, counts),
                        search.charges);
}

} // namespace

int lines_with_work(const PanelDesign& design) {
    return static_cast<int>(std::count_if(design.bill.begin(), design.bill.end(),
                                          [](const BillItem& item) { return !item.small; }));
}

void add_item(PanelDesign& design, const Part* part, std::int64_t quantity) {
    if (part && quantity > 0) design.bill.push_back({part, nullptr, part->kind, quantity});
}

void add_terminals(PanelDesign& design) {
    for (const TerminalCount& count : design.terminal_counts)
        add_item(design, count.part, count.pieces);
}

std::int64_t wire_metres(std::int64_t wires, const SearchFacts& search) {
    const auto row = search.rules->wires.find("length");
    if (row == search.rules->wires.end()) return 0;
    return need_in(static_cast<double>(wires) * row->second.number(), 1);
}

void add_wires(PanelDesign& design, const SearchFacts& search) {
    std::int64_t plain = design.wires;
    const auto take = [&](const Part* part, std::int64_t wires) {
        if (!part || part == search.parts.wire) return;
        wires = std::min(wires, plain);
        plain -= wires;
        const std::int64_t metres = wire_metres(wires, search);
        for (BillItem& item : design.bill)
            if (item.part == part && item.role == part->kind) {
                item.quantity += metres;
                return;
            }
        add_item(design, part, metres);
    };
    take(design.incoming.wire, incoming_wires(search.facts));
    take(design.supply_wire, supply_wires(design, search));
    for (const GroupSupply& group : design.further)
        take(group.units.wire, wires_behind(group.units, search));
    add_item(design, search.parts.wire, wire_metres(plain, search));
}

void complete_bill(PanelDesign& design, const SearchFacts& search) {
    if (const Part* extension = search.parts.bus_extension(design.leader->platform))
        add_item(design, extension, bus_breaks(design, search));
    const RailAndDuct more = rail_and_duct(search, design.enclosure, design.room);
    const auto wire = std::find_if(design.bill.begin(), design.bill.end(),
                                   [](const BillItem& item) { return item.role == "wire"; });
    std::vector<BillItem> items;
    for (const auto& [part, pieces] :
         {std::pair{search.parts.rail, more.rails}, std::pair{more.duct, more.ducts}})
        if (pieces > 0) items.push_back({part, nullptr, part->kind, pieces});
    design.bill.insert(wire, items.begin(), items.end());
    if (search.housing.bought)
        design.bill.push_back(
            {design.enclosure.part, nullptr, design.enclosure->kind, design.enclosure.pieces});
    add_item(design, search.parts.joining, design.enclosure.joints());
    std::stable_partition(design.bill.begin(), design.bill.end(), [](const BillItem& item) {
        return item.role == "enclosure" || item.role == "plate";
    });
    std::stable_partition(design.bill.begin(), design.bill.end(),
                          [](const BillItem& item) { return item.part != nullptr; });
}

std::int64_t supply_wires(const PanelDesign& design, const SearchFacts& search) {
    return wires_behind(design.supply, search);
}

std::int64_t cost_in(PanelDesign& powered, const SearchFacts& search, const Suite& enclosure,
                     const RoomPlan& plan) {
    return cost_with(powered, search, enclosure, plan.total_rows,
                     rail_and_duct(search, enclosure, plan));
}

std::int64_t least_more_in(PanelDesign& design, const SearchFacts& search, const Suite& enclosure,
                           const RoomPlan& plan) {
    RailAndDuct more = rail_and_duct(search, enclosure, plan);
    for (const Part* duct : search.parts.ducts) // more wires may ask for another one
        if (*duct->net() < *more.duct->net()) more.duct = duct;
    return cost_with(design, search, enclosure, plan.total_rows, more) - design.direct_cost;
}

std::int64_t material_of(const PanelDesign& design) {
    std::int64_t material = 0;
    for (const BillItem& item : design.bill) {
        const auto net = item.part ? item.part->net() : item.equipment->asked->price;
        if (net) material += net->steps() * item.quantity;
    }
    return material;
}

std::int64_t direct_cost(const PanelDesign& design, const SearchFacts& search) {
    return with_charges(material_of(design) * search.facts.box->quantity,
                        labour_cost(search.plan, design.counts), search.charges);
}

} // namespace backplate
