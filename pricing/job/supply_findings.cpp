#include "pricing/job/findings.h"

namespace backplate {
namespace {

std::string whole(std::int64_t count) { return steps_text(count, 0); }

std::string path_of(const Box& box, std::size_t entry) {
    return "#" + box_path(box.index) + "/supplies/" + whole(static_cast<std::int64_t>(entry));
}

/// Load on together today, amperes.
double load_today(const PanelChoice& choice, std::size_t entry) {
    const PanelDesign& design = *choice.design;
    if (&units_of(design, entry) == &design.supply) return design.load.together_a;
    const std::size_t group = entry - (design.supply.part ? 1 : 0);
    return design.further[group].together.value /
           (1 + choice.search->facts.box->choices.future_load.fraction());
}

/// Equal units that share a load, and what the breaker in front of them sees.
void unit_finding(const PanelChoice& choice, std::size_t entry, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const std::string at = path_of(box, entry);
    const SupplyChoice& supply = units_of(*choice.design, entry);
    if (supply.carrying() > 1)
        sink.add(
            "PARALLEL_SUPPLIES", at + "/quantity",
            {{"box", box.name}, {"count", whole(supply.quantity)}, {"part", supply.part->key}});
    if (supply.loss && !supply.part->inrush_a)
        sink.add("INRUSH_UNKNOWN", at + "/part",
                 {{"box", box.name},
                  {"part", supply.part->key},
                  {"breaker", choice.design->incoming.breaker->key}});
}

/// Rating of the supply against what is on together today: future load, share used, derating and
/// the step of the list multiply, each named with its factor.
void reserve_finding(const PanelChoice& choice, const SupplyResult& supply, std::size_t entry,
                     FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const double today = load_today(choice, entry);
    if (today <= 0) return;
    const double total = supply.rated.value / today;
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
    add("tight mounting", 1 / derating.mounting);
    add("step of the list and cheapest whole", supply.rated.value / needed);
    sink.add("RESERVES_STACKED", path_of(box, entry) + "/rated_a",
             {{"box", box.name},
              {"total", number_text(total, 1)},
              {"load", number_text(today, 2)},
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
void feed_finding(const PanelChoice& choice, const SupplyResult& supply, std::size_t entry,
                  FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    const SupplyChoice& units = units_of(*choice.design, entry);
    const int feeds = box.site.feeds;
    if (feeds < 2) return;
    const int left = units.quantity - (units.quantity + feeds - 1) / feeds;
    const Derating& derating = supply.derating;
    const double gives = left * units.unit_a() * derating.temperature.value_or(1) *
                         derating.altitude * derating.input * derating.mounting *
                         derating.utilisation;
    if (gives < supply.load.value)
        sink.add("FEED_LOST", box_path(box.index) + "/site/supply/feeds",
                 {{"box", box.name},
                  {"feeds", whole(feeds)},
                  {"left", number_text(gives, 2)},
                  {"load", number_text(supply.load.value, 2)}});
}

/// Voltages of the equipment that nothing feeds, or that the mains give as they come.
void voltage_findings(const PanelChoice& choice, FindingSink& sink) {
    const SearchFacts& search = *choice.search;
    const Box& box = *search.facts.box;
    const auto add = [&](const char* code, std::size_t place) {
        const LoadGroup& group = search.facts.groups[place];
        sink.add(code, box_path(box.index) + "/equipment",
                 {{"box", box.name},
                  {"amps", number_text(sum_of_group(search.fixed, place + 1).all_on_a, 2)},
                  {"volts", number_text(group.volts)},
                  {"current", group.alternating ? "AC" : "DC"}},
                 number_text(group.volts) + " V " + (group.alternating ? "AC" : "DC"));
    };
    for (const std::size_t place : search.unfed) add("VOLTAGE_NOT_SUPPLIED", place);
    for (std::size_t place = 0; place < search.facts.groups.size(); ++place)
        if (search.facts.groups[place].on_mains) add("MAINS_EQUIPMENT", place);
}

void transformer_findings(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    for (const GroupSupply& group : choice.design->further)
        for (const SideProtection* side : {&group.primary, &group.secondary})
            if (side->pieces > 0 && !side->part)
                sink.add("TRANSFORMER_UNPROTECTED", "#" + box_path(box.index) + "/supplies",
                         {{"box", box.name},
                          {"part", group.units.part->key},
                          {"side", side == &group.primary ? "primary" : "secondary"},
                          {"amps", number_text(side->limit.amps, 2)}});
}

} // namespace

const SupplyChoice& units_of(const PanelDesign& design, std::size_t entry) {
    const std::size_t main = design.supply.part ? 1 : 0;
    return entry < main ? design.supply : design.further[entry - main].units;
}

void supply_findings(const PanelChoice& choice, const BoxResult& result, FindingSink& sink) {
    for (std::size_t entry = 0; entry < result.supplies.size(); ++entry)
        unit_finding(choice, entry, sink);
    for (std::size_t entry = 0; entry < result.supplies.size(); ++entry)
        reserve_finding(choice, result.supplies[entry], entry, sink);
    future_finding(choice, sink);
    for (std::size_t entry = 0; entry < result.supplies.size(); ++entry)
        if (result.supplies[entry].group != "other_voltage")
            feed_finding(choice, result.supplies[entry], entry, sink);
    voltage_findings(choice, sink);
    transformer_findings(choice, sink);
}

} // namespace backplate
