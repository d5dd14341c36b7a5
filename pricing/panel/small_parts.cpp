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

const Part* part_for(const PriceBook& book, const BoxFacts& facts, const SmallPartRow& row) {
    const Part* best = nullptr;
    for (const Part* part : book.of_kind(row.part_kind)) {
        if (part->function != row.function) continue;
        if (!may_choose(*part, *facts.box, *facts.request)) continue;
        if (!best || *part->net() < *best->net()) best = part;
    }
    return best;
}

bool asked_already(const BoxFacts& facts, const SmallPartRow& row) {
    return std::any_of(
        facts.equipment.begin(), facts.equipment.end(), [&](const EquipmentFact& fact) {
            return fact.part && fact.asked->quantity > 0 && fact.part->function == row.function;
        });
}

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
    const std::int64_t pieces = whole(small.row->pieces), per = whole(small.row->per);
    item->counted += count;
    item->quantity = (item->counted * pieces + per - 1) / per;
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
    if (const SmallPart* gland = diameter ? gland_for(search.small.glands, *diameter) : nullptr)
        add_gland(design, {*gland, site.feeds, *diameter, *diameter});
}

} // namespace

std::optional<double> cable_diameter(const RuleBook& rules, const CableRow& row, int cores) {
    for (const BundleRow& bundle : rules.bundles)
        if (bundle.cores >= cores)
            return bundle.factor.number() * row.core_mm.number() + 2 * row.sheath_mm.number();
    return std::nullopt;
}

const SmallPart* gland_for(const std::vector<SmallPart>& glands, double diameter_mm) {
    for (const SmallPart& gland : glands)
        if (gland.row->from->number() <= diameter_mm && diameter_mm <= gland.row->up_to->number())
            return &gland;
    return nullptr;
}

SmallParts small_parts(const PriceBook& book, const BoxFacts& facts, const Housing& housing) {
    SmallParts small;
    for (const SmallPartRow& row : facts.rules->small_parts) {
        const bool cable = row.driver == "cable";
        if ((cable && !housing.prepared) || asked_already(facts, row)) continue;
        if (!condition_holds(row.condition, *facts.request, *facts.box, *facts.rules)) continue;
        if (const Part* part = part_for(book, facts, row))
            (cable ? small.glands : small.lines).push_back({&row, part});
        else
            small.left.push_back(&row);
    }
    if (!small.glands.empty()) count_cables(small, facts);
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
