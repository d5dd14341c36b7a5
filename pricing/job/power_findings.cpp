#include <algorithm>

#include "pricing/job/findings.h"
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

/// Equal units that share a load, and what the breaker in front of them sees.
void unit_findings(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = "#" + box_path(box.index) + "/supplies/0";
    const SupplyChoice& supply = choice.design->supply;
    if (!supply.part) return;
    if (supply.carrying() > 1)
        sink.add(
            "PARALLEL_SUPPLIES", at + "/quantity",
            {{"box", box.name}, {"count", whole(supply.quantity)}, {"part", supply.part->key}});
    if (!supply.part->inrush_a)
        sink.add("INRUSH_UNKNOWN", at + "/part",
                 {{"box", box.name},
                  {"part", supply.part->key},
                  {"breaker", choice.design->incoming.breaker->key}});
}

/// Rating of the supply against what is on together today: future load, share used, derating and
/// the step of the list multiply, each named with its factor.
void reserve_finding(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    if (result.supplies.empty() || choice.design->load.together_a <= 0) return;
    const SupplyResult& supply = result.supplies.front();
    const double total = supply.rated.value / choice.design->load.together_a;
    if (total <= sink.limit("RESERVES_STACKED")) return;
    std::string text;
    const auto add = [&](const char* name, double factor) {
        if (factor > 1.0005)
            text += (text.empty() ? "" : ", ") + std::string(name) + " × " + number_text(factor, 2);
    };
    const Derating& derating = supply.derating;
    const double future = 1 + box.choices.future_load.fraction();
    const double needed = supply.required ? supply.required->value : supply.load.value;
    add("future load", future);
    add("share of the rating used", 1 / derating.utilisation);
    add("warm air", 1 / derating.temperature.value_or(1));
    add("altitude", 1 / derating.altitude);
    add("low mains", 1 / derating.input);
    add("step of the list and cheapest whole", supply.rated.value / needed);
    sink.add("RESERVES_STACKED", "#" + box_path(box.index) + "/supplies/0/rated_a",
             {{"box", box.name},
              {"total", number_text(total, 1)},
              {"load", number_text(choice.design->load.together_a, 2)},
              {"rated", number_text(supply.rated.value, 1)},
              {"reserves", text}});
}

/// What the load of the future does not bring into the heat.
void future_finding(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    if (box.choices.future_load.fraction() * 100 > sink.limit("FUTURE_HEAT"))
        sink.add("FUTURE_HEAT", box_path(box.index) + "/choices/future_load_percent",
                 {{"box", box.name}, {"percent", box.choices.future_load.text()}});
}

/// With one of several feeds away its supplies are away too; those left may not carry everything.
void feed_finding(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const SupplyChoice& supply = choice.design->supply;
    const int feeds = box.site.feeds;
    if (feeds < 2 || !supply.part) return;
    const int left = supply.quantity - (supply.quantity + feeds - 1) / feeds;
    const Derating& derating = result.supplies.front().derating;
    const double gives = left * supply.unit_a() * derating.temperature.value_or(1) *
                         derating.altitude * derating.input * derating.utilisation;
    if (gives < choice.design->together.value)
        sink.add("FEED_LOST", box_path(box.index) + "/site/supply/feeds",
                 {{"box", box.name},
                  {"feeds", whole(feeds)},
                  {"left", number_text(gives, 2)},
                  {"load", number_text(choice.design->together.value, 2)}});
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
    if (small.without_gland > 0) add(whole(small.without_gland) + " cable gland(s)");
    if (!rows.empty())
        sink.add("SMALL_PARTS", "#/bill",
                 {{"box", box.name},
                  {"parts", rows},
                  {"percent", sundries_left(sink.rules(), small.shares).text()}});
}

void surge_finding(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    if (!box.site.place.starts_with("outdoor")) return;
    const auto& bill = choice.design->bill;
    const bool held = std::any_of(bill.begin(), bill.end(), [&](const BillItem& item) {
        return item.part && item.part->kind == "device" &&
               item.part->function.starts_with("surge arrester");
    });
    if (!held) sink.add("SURGE", box_path(box.index) + "/site/place", {{"box", box.name}});
}

} // namespace

void power_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    short_circuit_findings(*choice.search->facts.box, result, sink);
    unit_findings(choice, sink);
    reserve_finding(choice, result, sink);
    future_finding(choice, sink);
    feed_finding(choice, result, sink);
    handle_finding(choice, sink);
    duct_finding(choice, sink);
    small_part_finding(choice, sink);
    surge_finding(choice, sink);
}

} // namespace backplate
