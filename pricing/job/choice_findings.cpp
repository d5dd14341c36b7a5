#include "pricing/job/findings.h"
#include "pricing/values/document_units.h"

namespace backplate {
namespace {

/// What redundancy adds to the same panel without it.
struct Added {
    std::string what;
    std::int64_t cost = 0; ///< net prices, ten-thousandths
    double width_mm = 0, watts = 0;
};

void add_part(Added& added, const Part& part) {
    added.cost += part.net()->steps();
    added.width_mm += part.width_mm.value_or(0);
}

void add_supply(Added& added, const SupplyChoice& units, Amperes all_on, const RuleBook& rules) {
    added.what = "supply";
    add_part(added, *units.part);
    const SupplyChoice without{units.part, units.carrying(), units.loss};
    added.watts += supply_loss(units, all_on, rules.supply).value -
                   supply_loss(without, all_on, rules.supply).value;
    const Part& decoupler = *units.decoupler;
    const double volts = rules.supply.volts.number();
    const double own = decoupler.own_a ? *decoupler.own_a * volts : decoupler.own_w.value_or(0);
    for (int i = 0; i < units.decouplers; ++i) add_part(added, decoupler);
    added.watts += own * units.decouplers;
}

void add_controller(Added& added, const PanelDesign& design, const SearchFacts& search) {
    added.what += added.what.empty() ? "controller" : " and controller";
    const Part& controller = *design.leader;
    add_part(added, controller);
    for (const Accessory& accessory : controller.accessories)
        if (const Part* part = search.book->find(accessory.part); part && part->net())
            added.cost += part->net()->steps() * accessory.quantity;
    added.watts += controller.own_a.value_or(0) * search.rules->supply.volts.number();
}

void redundancy_finding(const PanelChoice& choice, const Box& box, FindingSink& sink) {
    const PanelDesign& design = *choice.design;
    Added added;
    if (design.supply.redundant()) add_supply(added, design.supply, design.all_on, sink.rules());
    for (const GroupSupply& group : design.further)
        if (group.units.redundant()) add_supply(added, group.units, group.all_on, sink.rules());
    if (box.choices.redundant_controller) add_controller(added, design, *choice.search);
    if (added.what.empty()) return;
    sink.add("REDUNDANCY", box_path(box.index) + "/choices",
             {{"box", box.name},
              {"what", added.what},
              {"cost", Money::of_steps(added.cost).text(2)},
              {"width", length_text(added.width_mm, sink.inch())},
              {"watts", number_text(added.watts, 1)}});
}

void sun_finding(const PanelChoice& choice, const Box& box, FindingSink& sink) {
    const PanelDesign& design = *choice.design;
    if (box.site.place != "outdoor_sun" || !choice.search->housing.walls_known) return;
    Work work;
    const Kelvin rise =
        rise_by_sun(design.enclosure, box, design.stage, design.inside, sink.rules(), work);
    const std::string& finish = design.enclosure->finish;
    const bool known = sink.rules().solar.finishes.contains(finish);
    sink.add("SOLAR", box_path(box.index) + "/site/place",
             {{"box", box.name},
              {"rise", rise_text(rise.value, sink.inch())},
              {"finish", known ? finish : "dark (none is stated)"}});
}

void housing_findings(const PanelChoice& choice, const Box& box, FindingSink& sink) {
    const PanelDesign& design = *choice.design;
    if (choice.search->housing.walls_known) return;
    sink.add("HEAT_NOT_JUDGED", "#" + box_path(box.index) + "/heat",
             {{"box", box.name},
              {"inside_w", number_text(design.inside.value, 1)},
              {"limit", temperature_text(highest_top(design, *choice.search).value, sink.inch())}});
    if (box.choices.enclosure == EnclosureChoice::by_client)
        sink.add("PLATE_NEEDED", "#" + box_path(box.index) + "/enclosures",
                 {{"box", box.name},
                  {"width", length_text(*design.enclosure->plate_width_mm, sink.inch())},
                  {"height",
                   length_text(static_cast<double>(design.room.used_height) / 10, sink.inch())},
                  {"depth", length_text(design.need.deepest_mm, sink.inch())}});
}

void suite_findings(const PanelChoice& choice, const Box& box, FindingSink& sink) {
    const Suite& suite = choice.design->enclosure;
    if (suite.joints() == 0) return;
    const std::string at = "#" + box_path(box.index) + "/enclosures";
    sink.add("SUITE", at,
             {{"box", box.name},
              {"pieces", steps_text(suite.pieces, 0)},
              {"part", suite->key},
              {"width", length_text(suite.pieces * suite->width_mm.value_or(0), sink.inch())},
              {"percent", number_text(heat_of_fullest(suite, sink.rules()) * 100)}});
    if (!choice.search->parts.joining)
        sink.add("SUITE_JOINING", at,
                 {{"box", box.name}, {"joints", steps_text(suite.joints(), 0)}});
}

} // namespace

void asked_findings(const Box& box, FindingSink& sink) {
    const Choices& choices = box.choices;
    const std::string at = box_path(box.index) + "/choices";
    if (choices.backup_minutes > sink.limit("UPS"))
        sink.add("UPS", at + "/backup_minutes",
                 {{"box", box.name}, {"minutes", number_text(choices.backup_minutes)}});
    if (choices.enclosure == EnclosureChoice::existing_plate)
        sink.add("EXISTING_SPACE", at + "/enclosure",
                 {{"box", box.name},
                  {"width", length_text(choices.plate_width_mm, sink.inch())},
                  {"height", length_text(choices.plate_height_mm, sink.inch())}});
}

void choice_findings(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    redundancy_finding(choice, box, sink);
    housing_findings(choice, box, sink);
    suite_findings(choice, box, sink);
    sun_finding(choice, box, sink);
}

} // namespace backplate
