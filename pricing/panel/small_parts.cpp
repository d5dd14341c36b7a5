#include "pricing/panel/small_parts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "pricing/cost/conditions.h"
#include "pricing/panel/candidate.h"
#include "pricing/panel/devices.h"

namespace backplate {
namespace {

std::int64_t whole(const Rule& rule) { return round_to_steps(rule.value, 0, Rounding::up); }

bool asked_already(const BoxFacts& facts, const SmallPartRow& row) {
    return std::any_of(
        facts.equipment.begin(), facts.equipment.end(), [&](const EquipmentFact& fact) {
            return fact.part && fact.asked->quantity > 0 && fact.part->function == row.function;
        });
}

bool is_plate(const SmallPartRow& row) { return row.driver == "cable" && whole(row.per) > 1; }

/// Pieces for so many counted.
std::int64_t pieces_for(const SmallPartRow& row, std::int64_t counted) {
    const std::int64_t per = whole(row.per);
    return (counted * whole(row.pieces) + per - 1) / per;
}

std::int64_t pieces_of(const GlandCount& own) { return pieces_for(*own.gland.row, own.cables); }

const CableRow* cable_of(const RuleBook& rules, const DemandLine& line) {
    const std::string key = line.points->signal + " " + line.points->wiring;
    for (const CableRow& row : rules.cables)
        if (row.key == key) return &row;
    return nullptr;
}

/// The first cable of feeds whose conductor is no thinner; null where none is.
const CableRow* cable_of_feed(const RuleBook& rules, double section_mm2) {
    for (const CableRow& row : rules.cables)
        if (row.section_mm2 > 0 && row.section_mm2 >= section_mm2) return &row;
    return nullptr;
}

double points_per_cable(const RuleBook& rules) {
    const auto row = rules.wires.find("points per cable");
    return row == rules.wires.end() ? 0 : row->second.number();
}

/// Diameter of the cables that the points of a line share; nothing where it cannot be told.
std::optional<double> diameter_of(const RuleBook& rules, const DemandLine& line) {
    const CableRow* row = cable_of(rules, line);
    if (!row) return std::nullopt;
    const int points = std::min(line.used, static_cast<int>(std::ceil(points_per_cable(rules))));
    return cable_diameter(rules, *row, points * static_cast<int>(whole(row->cores)));
}

void widen(double& least, double& most, double diameter_mm) {
    least = least == 0 ? diameter_mm : std::min(least, diameter_mm);
    most = std::max(most, diameter_mm);
}

/// Points by gland, then cables: the points of smaller glands and these, rounded up once.
void count_cables(SmallParts& small, const BoxFacts& facts) {
    const RuleBook& rules = *facts.rules;
    const double each = points_per_cable(rules);
    if (each <= 0) return;
    std::vector<std::int64_t> points(small.glands.size() + 1);
    std::vector<std::pair<double, double>> diameters(points.size());
    for (const DemandLine& line : facts.demand.lines) {
        const CableRow* row = cable_of(rules, line);
        if (line.used == 0 || (row && whole(row->cores) == 0)) continue;
        const auto diameter = diameter_of(rules, line);
        const SmallPart* gland = diameter ? gland_for(small.glands, *diameter) : nullptr;
        const std::size_t at =
            gland ? static_cast<std::size_t>(gland - small.glands.data()) : small.glands.size();
        points[at] += line.used;
        widen(diameters[at].first, diameters[at].second, diameter.value_or(0));
    }
    std::int64_t sum = 0, cables = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        sum += points[i];
        const auto so_far = static_cast<std::int64_t>(std::ceil(static_cast<double>(sum) / each));
        if (i == small.glands.size())
            small.without_gland = so_far - cables;
        else if (so_far > cables)
            small.cables.push_back(
                {small.glands[i], so_far - cables, diameters[i].first, diameters[i].second});
        cables = so_far;
    }
}

void count_bridged(SmallParts& small, const BoxFacts& facts) {
    for (std::size_t i = 0; i < facts.demand.lines.size(); ++i)
        if (const CableRow* row = cable_of(*facts.rules, facts.demand.lines[i]))
            small.bridged += facts.planned[i] * whole(row->bridged);
}

/// Price of glands and plates with the work on their openings, ten-thousandths.
std::int64_t cost_of(const std::vector<GlandCount>& entry, int boxes, const LabourPlan& plan) {
    BoxCounts counts;
    std::int64_t material = 0;
    for (const GlandCount& own : entry) {
        const std::int64_t pieces = pieces_of(own);
        material += pieces * own.gland.part->net()->steps();
        (is_plate(*own.gland.row) ? counts.cut_rectangular : counts.cut_gland) +=
            static_cast<int>(pieces);
    }
    return material * boxes + labour_cost(plan, counts);
}

bool takes(const SmallPart& plate, const GlandCount& own) {
    return plate.row->from->number() <= own.least_mm && own.most_mm <= plate.row->up_to->number();
}

/// At most so many of the cables that the plate takes on plates, the others in their glands.
std::vector<GlandCount> with_plates(const std::vector<GlandCount>& glands, const SmallPart& plate,
                                    std::int64_t most) {
    std::vector<GlandCount> entry;
    GlandCount on_plates{plate};
    for (GlandCount own : glands) {
        const std::int64_t moved =
            takes(plate, own) ? std::min(own.cables, most - on_plates.cables) : 0;
        if (moved > 0) {
            on_plates.cables += moved;
            widen(on_plates.least_mm, on_plates.most_mm, own.least_mm);
            widen(on_plates.least_mm, on_plates.most_mm, own.most_mm);
        }
        own.cables -= moved;
        if (own.cables > 0) entry.push_back(own);
    }
    if (on_plates.cables > 0) entry.push_back(on_plates);
    return entry;
}

/// One share a group of which a row is a line.
void share_sundries(SmallParts& small, const RuleBook& rules) {
    std::set<std::string> groups;
    for (const auto* list : {&small.lines, &small.glands})
        for (const SmallPart& own : *list)
            if (groups.insert(own.row->group).second)
                if (const Rule* share = rules.sundries_share(own.row->group))
                    small.shares.push_back(share);
}

std::int64_t counted(const SmallPartRow& row, const PanelDesign& design,
                     const SearchFacts& search) {
    const BoxCounts& counts = design.counts;
    if (row.driver == "box") return 1;
    if (row.driver == "feed") return search.facts.box->site.feeds;
    if (row.driver == "terminal") return counts.terminals;
    if (row.driver == "strip") return strips_of(design, search);
    if (row.driver == "bridge") return search.small.bridged;
    if (row.driver == "wire") return counts.wires;
    return counts.devices + counts.controllers + counts.modules + counts.door_devices +
           counts.operator_panels;
}

BillItem& add(PanelDesign& design, const SmallPart& small, std::int64_t count) {
    auto item = std::find_if(design.bill.begin(), design.bill.end(),
                             [&](const BillItem& each) { return each.small == small.row; });
    if (item == design.bill.end()) {
        design.bill.push_back({small.part, nullptr, small.part->kind, 0});
        item = std::prev(design.bill.end());
        item->small = small.row;
    }
    item->counted += count;
    item->quantity = pieces_for(*small.row, item->counted);
    return *item;
}

void add_gland(PanelDesign& design, const GlandCount& own) {
    BillItem& item = add(design, own.gland, own.cables);
    widen(item.least_mm, item.most_mm, own.least_mm);
    widen(item.least_mm, item.most_mm, own.most_mm);
}

void add_feed_glands(PanelDesign& design, const SearchFacts& search) {
    const Conductor* conductor = design.incoming.conductor;
    if (!conductor || search.small.glands.empty()) return;
    const RuleBook& rules = *search.rules;
    const Site& site = search.facts.box->site;
    const CableRow* row = cable_of_feed(rules, conductor->order.number());
    const auto diameter =
        row ? cable_diameter(rules, *row, live_conductors(site) + 1) : std::nullopt;
    const SmallPart* gland = diameter ? gland_for(search.small.glands, *diameter) : nullptr;
    design.feeds_without_gland = gland ? 0 : site.feeds;
    if (gland) add_gland(design, {*gland, site.feeds, *diameter, *diameter});
}

} // namespace

std::optional<double> cable_diameter(const RuleBook& rules, const CableRow& row, int cores) {
    for (const BundleRow& bundle : rules.bundles)
        if (bundle.cores >= cores)
            return bundle.factor.number() * row.core_mm.number() + 2 * row.sheath_mm.number();
    return std::nullopt;
}

std::vector<GlandCount> cheapest_entry(const std::vector<GlandCount>& glands,
                                       const std::vector<SmallPart>& plates, int boxes,
                                       const LabourPlan& plan) {
    std::vector<GlandCount> best = glands;
    std::int64_t least = cost_of(glands, boxes, plan);
    for (const SmallPart& plate : plates) {
        std::int64_t fitting = 0;
        for (const GlandCount& own : glands) fitting += takes(plate, own) ? own.cables : 0;
        const std::int64_t each = whole(plate.row->per), full = fitting / each;
        for (const std::int64_t most : {full * each, (full + 1) * each}) {
            auto entry = with_plates(glands, plate, most);
            const std::int64_t cost = cost_of(entry, boxes, plan);
            if (cost >= least) continue;
            least = cost;
            best = std::move(entry);
        }
    }
    return best;
}

const SmallPart* gland_for(const std::vector<SmallPart>& glands, double diameter_mm) {
    for (const SmallPart& gland : glands)
        if (gland.row->from->number() <= diameter_mm && diameter_mm <= gland.row->up_to->number())
            return &gland;
    return nullptr;
}

SmallParts small_parts(const PriceBook& book, const BoxFacts& facts, const Housing& housing,
                       const LabourPlan& plan) {
    SmallParts small;
    std::vector<SmallPart> plates;
    for (const SmallPartRow& row : facts.rules->small_parts) {
        const bool cable = row.driver == "cable";
        if ((cable && !housing.prepared) || asked_already(facts, row)) continue;
        if (!condition_holds(row.condition, *facts.request, *facts.box, *facts.rules)) continue;
        if (const Part* part = cheapest_of(book, row.part_kind, row.function, facts))
            (!cable ? small.lines : is_plate(row) ? plates : small.glands).push_back({&row, part});
        else if (!is_plate(row)) // glands do without
            small.left.push_back(&row);
    }
    if (!small.glands.empty()) count_cables(small, facts);
    small.cables = cheapest_entry(small.cables, plates, facts.box->quantity, plan);
    for (const GlandCount& own : small.cables)
        if (is_plate(*own.gland.row)) {
            small.on_plates += own.cables;
            small.plates += pieces_of(own);
        }
    count_bridged(small, facts);
    share_sundries(small, *facts.rules);
    return small;
}

void add_small_parts(PanelDesign& design, const SearchFacts& search, bool feeds) {
    for (const SmallPart& line : search.small.lines)
        if (const std::int64_t count = counted(*line.row, design, search); count > 0)
            add(design, line, count);
    for (const GlandCount& own : search.small.cables) add_gland(design, own);
    if (feeds) add_feed_glands(design, search);
}

} // namespace backplate
