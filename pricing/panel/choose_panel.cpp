#include "pricing/panel/choose_panel.h"

#include <algorithm>

#include "pricing/panel/beaten_choices.h"
#include "pricing/panel/devices.h"
#include "pricing/panel/layout.h"
#include "pricing/panel/mix_cases.h"
#include "pricing/panel/work_counts.h"

namespace backplate {
namespace {

/// Supplies of the control voltage with their wires, those that another one stands in for left out.
std::vector<SupplyChoice> main_supplies(const SearchFacts& search) {
    std::vector<SupplyChoice> supplies{no_supply()};
    if (!search.without_24v) supplies = supply_choices(*search.book, search.facts, *search.rules);
    for (SupplyChoice& supply : supplies)
        supply.wire = supply_wire(*search.book, search.facts, search.parts, supply.unit_a(),
                                  supply.carrying());
    return without_beaten(std::move(supplies), sum_of(search.fixed).all_on_a,
                          search.facts.box->site, search.rules->supply);
}

std::unique_ptr<SearchFacts> search_facts(const BidRequest& request, const Box& box,
                                          const ChosenParts& chosen, const RuleBook& rules,
                                          const SpareModules& spare_modules,
                                          const JobShare& share) {
    auto search = std::make_unique<SearchFacts>();
    search->chosen = chosen;
    search->needed = without_dearer_alike(chosen.book, box, request);
    const PriceBook& book = search->needed;
    search->book = &book;
    search->rules = &rules;
    search->facts = box_facts(request, box, book, rules, spare_modules, share);
    search->parts = fixed_parts(book, search->facts, rules);
    search->plan = labour_plan(request, box, rules);
    search->charges = charge_plan(request, box, rules);
    search->fixed = fixed_consumers(search->facts, rules);
    search->without_24v = search->facts.no_controller && sum_of(search->fixed).all_on_a == 0;
    if (search->parts.terminal)
        search->incoming = incoming_choices(book, search->facts, search->parts);
    search->stages = cooling_stages(book, search->facts);
    if (search->without_24v)
        std::erase_if(search->stages, [](const CoolingStage& stage) {
            return stage.part && stage.part->own_a.value_or(0) > 0;
        });
    search->stages = without_beaten(std::move(search->stages), search->facts.box->site);
    search->supplies = main_supplies(*search);
    search->further = further_supplies(*search);
    search->unfed = unfed_groups(*search);
    search->direct = direct_on_mains(*search);
    search->heating = heating_parts(book, search->facts);
    search->backups = backup_parts(book, search->facts);
    search->housing = housing_of(book, search->facts);
    search->small = small_parts(book, search->facts, search->housing, search->plan);
    search->charges.sundries = sundries_left(rules, search->small.shares).steps();
    search->least_cutout = least_cutout_hundredths(search->housing);
    return search;
}

void widen(std::int64_t& widest, const Part& part, const OptionalRule& side) {
    const double clearance = side ? 2 * side->number() : 0;
    if (part.width_mm.value_or(0) > 0)
        widest = std::max(widest, tenths(*part.width_mm + clearance));
}

/// The widest of everything that may stand in a band: keeps the room rule monotone.
void find_widest(SearchFacts& search, const std::vector<PlatformCase>& cases) {
    const RoomRules& rules = search.rules->room;
    const auto at = [&](Band band) -> std::int64_t& {
        return search.widest[static_cast<std::size_t>(band)];
    };
    for (const char* kind : {"incoming", "main_switch"})
        for (const Part* part : search.book->of_kind(kind))
            if (may_choose(*part, *search.facts.box, *search.facts.request))
                widen(at(Band::mains), *part, rules.mains.side_mm);
    for (const SupplyChoice& supply : search.supplies)
        for (const Part* part : {supply.part, supply.decoupler})
            if (part) widen(at(Band::supply), *part, rules.supply.side_mm);
    for (const Part* part : search.backups) widen(at(Band::supply), *part, rules.supply.side_mm);
    for (const FurtherSupplies& way : search.further)
        for (const GroupSupply& group : way.groups)
            for (const auto& [part, pieces] : group.parts())
                part->kind == "protection" ? widen(at(Band::other), *part, rules.other.side_mm)
                                           : widen(at(Band::supply), *part, rules.supply.side_mm);
    for (const PlatformCase& platform : cases) {
        widen(at(Band::platform), *platform.leader, rules.platform.side_mm);
        if (platform.safety) widen(at(Band::platform), *platform.safety, rules.platform.side_mm);
        for (const auto* list :
             {&platform.problem.modules, &platform.closers.heads, &platform.closers.feeds})
            for (const MixModule& module : *list) {
                widen(at(Band::platform), *module.part, rules.platform.side_mm);
                search.tallest_module =
                    std::max(search.tallest_module, tenths(module.part->height_mm.value_or(0)));
            }
        for (const Part* part : platform.beaten) { // a row is made for whatever may be chosen
            widen(at(Band::platform), *part, rules.platform.side_mm);
            if (part->kind != "controller")
                search.tallest_module =
                    std::max(search.tallest_module, tenths(part->height_mm.value_or(0)));
        }
    }
}

std::string no_leader_text(const Box& box, const JobShare& share) {
    if (box.choices.redundant_controller)
        return "no controller of the platforms allowed runs as a pair";
    if (box.controlled_by != ControlledBy::other_box)
        return "no controller of the platforms allowed";
    return share.platform.empty() ? "no head of a remote station of the platforms allowed"
                                  : "no head of a remote station of platform " + share.platform;
}

void name_missing(PanelChoice& choice, const SearchFacts& search) {
    const Box& box = *search.facts.box;
    choice.limits = search.chosen.limits;
    for (const std::string& limit : search.facts.limits) choice.limits.push_back(limit);
    const auto add = [&](std::string text) { choice.limits.push_back(std::move(text)); };
    for (const std::string& text : search.parts.missing) add(text);
    for (const std::string& row : search.plan.unknown)
        add("rule row " + row + " has a driver or a class that nothing counts");
    if (search.supplies.empty()) add(no_supply_text(box));
    for (const std::size_t group : search.unfed)
        if (search.facts.groups[group].word == "outputs")
            add("no supply in the price book carries the outputs of box " + box.name);
    if (box.choices.backup_minutes > 0 && search.backups.empty())
        add("no backup part in the price book");
    if (search.stages.empty()) add("no cooling of the kind asked in the price book");
    if (search.housing.candidates.empty()) add(no_candidate_text(*search.book, box, *search.rules));
}

/// Do the devices, each at its place, fit where the room rule passes the enclosure over.
bool exactly_fits(const PanelDesign& design, const SearchFacts& search, const Part& enclosure) {
    const auto plan =
        exact_room(design.need, {}, enclosure, search.facts.box->choices.room, search.rules->room);
    if (!plan) return false;
    PanelDesign smaller = design;
    smaller.enclosure = enclosure;
    smaller.room = *plan;
    return try_lay_out(smaller, search).has_value();
}

/// Cheaper enclosures that an exact layout would fill, that only the size limit forbids, or that
/// have the room but cannot shed the heat.
void look_for_cheaper(PanelChoice& choice, ShedTable& shed) {
    const SearchFacts& search = *choice.search;
    const PanelDesign& design = *choice.design;
    const Box& box = *search.facts.box;
    if (box.choices.enclosure != EnclosureChoice::choose) return;
    const Money own = Money::of_steps(price_of(design.enclosure));
    const CoolingStage stage = stage_of(search, design.stage_index, 1);
    const RoomRules& rules = search.rules->room;
    for (const Part* part : search.book->of_kind("enclosure")) {
        if (!usable_enclosure(*part, search.facts) || *part->net() >= own) continue;
        if (!deep_enough(design.need, *part, rules)) continue;
        const bool size = within_size(*part, box.site);
        const bool by_rule = room_plan(design.need, *part, box.choices.room, rules).has_value();
        const std::int64_t heat =
            shed.milliwatts(*part, design.stage_index, stage, highest_top(design, search));
        if (need_in(design.inside.value, 0.001) > heat) {
            choice.heat_decides = choice.heat_decides || (size && by_rule);
            continue;
        }
        if (size ? (by_rule || !exactly_fits(design, search, *part)) : !by_rule) continue;
        const CheaperEnclosure found{part, own - *part->net()};
        auto& slot = size ? choice.smaller : choice.beyond_size;
        if (!slot || found.saving > slot->saving) slot = found;
    }
}

} // namespace

PanelChoice cheapest_panel(const BidRequest& request, const Box& box, const ChosenParts& chosen,
                           const RuleBook& rules, const SpareModules& spare_modules,
                           const JobShare& share, Work& work) {
    PanelChoice choice;
    choice.search = search_facts(request, box, chosen, rules, spare_modules, share);
    SearchFacts& search = *choice.search;
    name_missing(choice, search);
    if (!choice.limits.empty()) return choice;
    const auto cases = platform_cases(*search.book, search.facts, rules, search.plan);
    find_widest(search, cases);
    Refusals refusals;
    ShedTable shed(box, rules, work);
    for (const PlatformCase& platform : cases)
        for (const std::string& limit : platform.limits)
            if (std::find(choice.limits.begin(), choice.limits.end(), limit) == choice.limits.end())
                choice.limits.push_back(limit);
    PanelSearch panels(choice, refusals, shed, work);
    MixCases(cases, choice, panels, work).run();
    panels.say_why();
    if (cases.empty()) choice.limits.push_back(no_leader_text(box, share));
    if (choice.design) {
        choice.limits.clear();
        look_for_cheaper(choice, shed);
    } else {
        const std::string limit = binding_limit(search, refusals);
        if (!limit.empty()) choice.limits.push_back(limit);
    }
    return choice;
}

} // namespace backplate
