#include "pricing/panel/work_counts.h"

#include <algorithm>
#include <cmath>

#include "pricing/panel/mains.h"

namespace backplate {
namespace {

/// The safety program of a system is counted at the first of its boxes that has such points.
bool first_with_safety(const SearchFacts& search) {
    const Box& own = *search.facts.box;
    for (const Box& box : search.facts.request->boxes)
        if (box.controller_box == own.controller_box && holds_safety(box, *search.rules))
            return box.index == own.index;
    return holds_safety(own, *search.rules);
}

int hundredths(double value) { return static_cast<int>(std::llround(value * 100)); }

} // namespace

void count_in_door(BoxCounts& counts, const BillItem& item, const RuleBook& rules) {
    const int pieces = static_cast<int>(item.quantity);
    const bool brings_hours = item.equipment->asked->hours.has_value();
    const DoorOpening* row = nullptr;
    for (const DoorOpening& each : rules.door_openings)
        if (item.part && each.function == item.part->function) row = &each;
    const std::string opening = row ? row->opening : "rectangular";
    if (opening == "rectangular") counts.cut_rectangular += pieces;
    if (opening == "round") counts.cut_round += pieces;
    if (brings_hours) return;
    (row && row->small ? counts.door_devices : counts.operator_panels) += pieces;
}

void count_scope(PanelDesign& design, const SearchFacts& search) {
    BoxCounts& counts = design.counts;
    const ScopeOfSupply& scope = search.facts.request->scope;
    counts.further_boxes = search.facts.box->quantity - 1;
    counts.further_languages = std::max(0, scope.languages - 1);
    for (const BillItem& item : design.bill)
        if (item.role == "free_issue") counts.free_issue += static_cast<int>(item.quantity);
    counts.safety_controllers = first_with_safety(search) ? 1 : 0;
    if (search.facts.box->index > 0) return; // the rest counts once in the job
    counts.jobs = 1;
    counts.witness_hundredths = hundredths(scope.witness_days);
    counts.site_hundredths = hundredths(scope.site_days);
    counts.site_visits = scope.site_days > 0 ? 1 : 0;
}

void count_power_wires(PanelDesign& design, const SearchFacts& search) {
    const auto section = search.rules->wires.find("large section");
    const Conductor* conductor = design.incoming.conductor;
    if (!conductor || section == search.rules->wires.end()) return;
    if (conductor->order.number() <= section->second.number()) return;
    const Site& site = search.facts.box->site;
    design.counts.power_wires_large = site.feeds * (2 * live_conductors(site) + 1);
}

void count_enclosure(BoxCounts& counts, const Housing& housing, const Suite& enclosure) {
    const bool floor = enclosure->mounting == "floor";
    counts.enclosures_floor = housing.prepared && floor ? enclosure.pieces : 0;
    counts.enclosures_wall = housing.prepared && !floor ? enclosure.pieces : 0;
    counts.enclosure_joints = enclosure.joints();
    counts.own_preparation = housing.prepared && enclosure->prep_minutes.has_value();
    counts.preparation_minutes =
        counts.own_preparation
            ? enclosure.pieces * static_cast<int>(std::ceil(*enclosure->prep_minutes))
            : 0;
    counts.cutout_hundredths = hundredths(enclosure->cutout_factor);
}

int least_cutout_hundredths(const Housing& housing) {
    int least = housing.candidates.empty() ? 100 : hundredths(1e6);
    for (const Suite& each : housing.candidates)
        least = std::min(least, hundredths(each->cutout_factor));
    return least;
}

} // namespace backplate
