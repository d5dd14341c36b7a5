#include <algorithm>

#include "pricing/job/findings.h"
#include "pricing/panel/layout.h"
#include "pricing/panel/mains.h"
#include "pricing/panel/room_rule.h"
#include "pricing/panel/site_limits.h"
#include "pricing/values/document_units.h"

namespace backplate {
namespace {

std::string whole(std::int64_t count) { return steps_text(count, 0); }

/// The rating offered, that none can be, and that the client's is not reached.
void short_circuit_findings(const Box& box, const BoxResult& result, FindingSink& sink) {
    const std::string at = box_path(box.index);
    const ShortCircuitResult& offered = *result.short_circuit;
    const auto& asked = box.site.fault_current_ka;
    const std::string rating =
        offered.stated_ka ? number_text(*offered.stated_ka, 1) : "an unknown";
    if (!asked)
        sink.add("SCCR_UNKNOWN", at + "/site/fault_current_ka",
                 {{"box", box.name}, {"stated_ka", rating}});
    if (offered.stated_ka)
        sink.add("SCCR_OFFERED", "#" + at + "/short_circuit",
                 {{"box", box.name}, {"stated_ka", rating}});
    else
        sink.add("SCCR_NOT_DETERMINED", "#" + at + "/short_circuit",
                 {{"box", box.name}, {"part", offered.weakest_part}});
    if (asked && offered.stated_ka.value_or(0) < *asked)
        sink.add("SCCR_NOT_MET", at + "/site/fault_current_ka",
                 {{"box", box.name},
                  {"asked_ka", number_text(*asked, 1)},
                  {"stated_ka", rating},
                  {"part", offered.weakest_part}});
}

/// A main switch that nothing says to have a handle through door or flange.
void handle_finding(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const Part* part = choice.design->incoming.main_switch;
    if (!part) return;
    const auto says = [](const std::string& text) {
        return text.find("handle") != std::string::npos;
    };
    if (!says(part->function) && !says(part->description))
        sink.add("SWITCH_HANDLE", "#" + box_path(box.index) + "/incoming",
                 {{"box", box.name}, {"part", part->key}});
}

/// More wires and cores meet in a duct than the widest of the rules holds.
void duct_finding(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const auto overfill = duct_overfill(choice.design->need, sink.rules().room);
    if (overfill)
        sink.add("DUCT_OVERFULL", "#" + box_path(box.index) + "/wires",
                 {{"box", box.name},
                  {"wires", whole(overfill->wires)},
                  {"holds", whole(overfill->holds)},
                  {"width", length_text(overfill->width_mm, sink.inch())}});
}

/// Rows without a part beside such as have one: without any, the sundries cover all as ever.
void small_part_finding(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const SmallParts& small = choice.search->small;
    if (small.lines.empty() && small.glands.empty()) return;
    std::string rows;
    const auto add = [&](const std::string& text) { rows += (rows.empty() ? "" : ", ") + text; };
    for (const SmallPartRow* row : small.left)
        if (row->driver != "cable") add(row->function);
    const std::int64_t without = small.without_gland + choice.design->feeds_without_gland;
    if (without > 0) add(whole(without) + " cable gland(s)");
    if (!rows.empty())
        sink.add("SMALL_PARTS", "#/bill",
                 {{"box", box.name},
                  {"parts", rows},
                  {"percent", sundries_left(sink.rules(), small.shares).text()}});
}

/// Asked for and none taken, or what was taken.
void surge_finding(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const SurgeFact& surge = choice.search->facts.surge;
    if (!surge.row || surge.by_hand) return;
    const std::string at = box_path(box.index) + "/site/place";
    if (!surge.arrester) {
        sink.add("SURGE", at, {{"box", box.name}, {"reason", surge.row->key}});
        return;
    }
    std::string front = "the incoming device protects it";
    if (surge.breaker)
        front = surge.breaker->key + " stands before it";
    else if (surge.row->breaker_a)
        front = "the price book has no breaker to stand before it";
    sink.add("SURGE_ADDED", at,
             {{"box", box.name},
              {"reason", surge.row->key},
              {"part", surge.arrester->key},
              {"front", front}});
}

/// A station that goes on in a further row without the part for it.
void extension_finding(const PanelChoice& choice, FindingSink& sink) {
    const SearchFacts& search = *choice.search;
    const Box& box = *search.facts.box;
    const std::string& platform = choice.design->leader->platform;
    if (search.parts.bus_extension(platform)) return;
    if (const int breaks = bus_breaks(*choice.design, search); breaks > 0)
        sink.add("BUS_EXTENSION", "#" + box_path(box.index) + "/stations",
                 {{"box", box.name}, {"count", whole(breaks)}, {"platform", platform}});
}

} // namespace

void power_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    short_circuit_findings(*choice.search->facts.box, result, sink);
    supply_findings(choice, result, sink);
    handle_finding(choice, sink);
    duct_finding(choice, sink);
    small_part_finding(choice, sink);
    surge_finding(choice, sink);
    extension_finding(choice, sink);
}

} // namespace backplate
