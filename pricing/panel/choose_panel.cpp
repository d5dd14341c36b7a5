#include "pricing/panel/choose_panel.h"

#include <algorithm>

#include "pricing/panel/devices.h"
#include "pricing/panel/refusals.h"
#include "pricing/panel/work_counts.h"

namespace backplate {
namespace {

std::unique_ptr<SearchFacts> search_facts(const BidRequest& request, const Box& box,
                                          const ChosenParts& chosen, const RuleBook& rules,
                                          const SpareModules& spare_modules,
                                          const JobShare& share) {
    auto search = std::make_unique<SearchFacts>();
    search->chosen = chosen;
    const PriceBook& book = search->chosen.book;
    search->book = &book;
    search->rules = &rules;
    search->facts = box_facts(request, box, book, rules, spare_modules, share);
    search->parts = fixed_parts(book, search->facts, rules);
    search->plan = labour_plan(request, box, rules);
    search->charges = charge_plan(request, box, rules);
    search->fixed = fixed_consumers(search->facts, rules);
    search->without_24v = search->facts.no_controller && sum_of(search->fixed).all_on_a == 0;
    if (search->without_24v)
        search->supplies.push_back(no_supply());
    else
        search->supplies = supply_choices(book, search->facts, rules);
    for (SupplyChoice& supply : search->supplies)
        supply.wire = supply_wire(book, search->facts, search->parts, supply.unit_a());
    if (search->parts.terminal)
        search->incoming = incoming_choices(book, search->facts, search->parts);
    search->stages = cooling_stages(book, search->facts);
    if (search->without_24v)
        std::erase_if(search->stages, [](const CoolingStage& stage) {
            return stage.part && stage.part->own_a.value_or(0) > 0;
        });
    search->heating = heating_parts(book, search->facts);
    search->backups = backup_parts(book, search->facts);
    search->housing = housing_of(book, search->facts);
    search->enclosure_work = kinds_of_work(search->housing);
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
    for (const PlatformCase& platform : cases) {
        widen(at(Band::platform), *platform.leader, rules.platform.side_mm);
        if (platform.safety) widen(at(Band::platform), *platform.safety, rules.platform.side_mm);
        for (const auto* list :
             {&platform.problem.modules, &platform.closers.heads, &platform.closers.feeds})
            for (const MixModule& module : *list)
                widen(at(Band::platform), *module.part, rules.platform.side_mm);
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
    if (box.choices.backup_minutes > 0 && search.backups.empty())
        add("no backup part in the price book");
    if (search.stages.empty()) add("no cooling of the kind asked in the price book");
    if (search.housing.candidates.empty()) add(no_candidate_text(*search.book, box, *search.rules));
}

/// An arrangement of one platform with the least that a panel around it can cost.
struct Start {
    std::string platform;
    PanelDesign design;
    std::int64_t least = 0; ///< of a whole panel around it
    std::int64_t power = 0; ///< price of the supply within that
    std::int64_t width = 0; ///< of its devices on the rails, without supply and incoming, 0.1 mm
    bool fits = true;       ///< an enclosure holds these devices
};

/// A supply and a cooling stage with their price.
struct Power {
    std::size_t supply = 0, stage = 0;
    std::int64_t price = 0;
};

std::vector<Power> powers_by_price(const SearchFacts& search) {
    std::vector<Power> powers;
    for (std::size_t i = 0; i < search.supplies.size(); ++i)
        for (std::size_t k = 0; k < search.stages.size(); ++k) {
            const SupplyChoice& supply = search.supplies[i];
            const CoolingStage& stage = search.stages[k];
            std::int64_t price = price_of(supply);
            if (stage.part) price += stage.part->net()->steps() * stage.quantity;
            powers.push_back({i, k, in_all_boxes(price, search)});
        }
    std::stable_sort(powers.begin(), powers.end(),
                     [](const Power& a, const Power& b) { return a.price < b.price; });
    return powers;
}

/// Every arrangement of the front of one platform case.
void add_starts(const PlatformCase& platform, PanelChoice& choice, Work& work,
                std::vector<Start>& starts) {
    const MixFront front = mix_front(platform.problem, work);
    choice.proven = choice.proven && front.proven;
    bool arranged = false;
    for (const MixMember& member : front.members)
        for (Arrangement& arrangement : arrangements(member, *platform.leader, platform.closers)) {
            work.check_stop();
            arranged = true;
            const bool proven = front.proven && arrangement.fewest;
            starts.push_back({platform.platform,
                              with_arrangement(*choice.search, platform, std::move(arrangement))});
            starts.back().design.mix_proven = proven;
        }
    if (!front.members.empty() && !arranged)
        choice.limits.push_back(platform.leader->key +
                                " has too few places or too little bus current");
}

/// Judges the starts from the cheapest on; stops where no better panel can follow.
class PanelSearch {
public:
    PanelSearch(PanelChoice& choice, Refusals& refusals, ShedTable& shed, Work& work)
        : choice_(choice), search_(*choice.search), refusals_(refusals), shed_(shed), work_(work),
          powers_(powers_by_price(search_)) {
        auto& candidates = choice.search->housing.candidates;
        std::stable_sort(candidates.begin(), candidates.end(),
                         [](const Part* a, const Part* b) { return price_of(*a) < price_of(*b); });
        for (const Part* part : candidates)
            prices_.push_back(in_all_boxes(price_of(*part), search_));
    }

    void run(std::vector<Start> starts) {
        for (Start& start : starts) bound(start);
        std::stable_sort(starts.begin(), starts.end(),
                         [](const Start& a, const Start& b) { return a.least < b.least; });
        for (const Start& start : starts) {
            if (!start.fits) continue;
            if (dearer(start.least)) return;
            work_.check_stop();
            if (work_.exhausted() && choice_.design) {
                if (choice_.proven) choice_.lower_bound = start.least;
                choice_.proven = false;
                return;
            }
            try_powers(start);
        }
        if (!choice_.design) say_why(starts);
    }

private:
    /// Of what no enclosure holds the narrowest, so that its figures stand in the refusal.
    void say_why(const std::vector<Start>& starts) {
        const Start* narrowest = nullptr;
        for (const Start& start : starts)
            if (!start.fits && (!narrowest || start.width < narrowest->width)) narrowest = &start;
        if (narrowest) try_powers(*narrowest);
    }

    /// No panel with this arrangement costs less: the cheapest supply not too weak, and the
    /// cheapest enclosure that holds the devices even without supply and incoming devices.
    void bound(Start& start) const {
        for (const Power& power : powers_)
            if (!too_weak(start.design, search_, search_.supplies[power.supply])) {
                start.power = power.price;
                start.least = least_cost(start.design, search_, search_.supplies[power.supply]);
                break;
            }
        const RoomNeed need = room_need(start.design, search_);
        const RoomDemand room = room_demand(need, search_);
        for (const BandNeed& band : need.bands) start.width += band.width;
        std::size_t first = 0;
        while (first < prices_.size() && !holds(need, room, *search_.housing.candidates[first]))
            ++first;
        start.fits = first < prices_.size();
        start.least += start.fits ? prices_[first] : prices_.front();
    }

    bool holds(const RoomNeed& need, const RoomDemand& room, const Part& enclosure) const {
        return deep_enough(need, enclosure, search_.rules->room) && room.on(enclosure);
    }

    void try_powers(const Start& start) {
        for (const Power& power : powers_) {
            if (dearer(start.least - start.power + power.price)) return;
            if (too_weak(start.design, search_, search_.supplies[power.supply])) {
                ++refusals_.count[Refusal::supply];
                refusals_.least_load = std::min(refusals_.least_load, start.design.load.together_a);
                continue;
            }
            PanelDesign design = start.design;
            ++work_.counts.candidates;
            const Refusal refusal =
                with_power(design, search_, search_.supplies[power.supply], power.stage);
            refusals_.note(refusal, design);
            if (refusal == Refusal::none) try_enclosures(start.platform, design);
        }
    }

    void try_enclosures(const std::string& platform, const PanelDesign& powered) {
        const RoomDemand room = room_demand(powered.need, search_);
        for (std::size_t i = 0; i < prices_.size(); ++i) {
            const Part& enclosure = *search_.housing.candidates[i];
            if (dearer(powered.direct_cost + prices_[i])) return;
            ++work_.counts.candidates;
            std::optional<RoomPlan> plan;
            const Refusal first_look = look_into(powered, search_, room, enclosure, shed_, plan);
            if (first_look != Refusal::none) {
                note(first_look, powered, enclosure);
                continue;
            }
            PanelDesign design = powered;
            const Refusal refusal = in_enclosure(design, search_, enclosure, shed_);
            note(refusal, design, enclosure);
            if (refusal != Refusal::none || dearer(design.direct_cost)) continue;
            choice_.platform = platform;
            choice_.design = std::move(design);
        }
    }

    void note(Refusal refusal, const PanelDesign& design, const Part& enclosure) {
        refusals_.note(refusal, design);
        if (refusal == Refusal::heat)
            refusals_.note_shed(shed_.milliwatts(enclosure, design.stage_index, design.stage,
                                                 highest_top(design, search_)));
    }

    bool dearer(std::int64_t cost) const {
        return choice_.design && cost >= choice_.design->direct_cost;
    }

    PanelChoice& choice_;
    const SearchFacts& search_;
    Refusals& refusals_;
    ShedTable& shed_;
    Work& work_;
    std::vector<Power> powers_;
    std::vector<std::int64_t> prices_; ///< of the enclosures that may be taken, in their order
};

/// Cheaper enclosures that an exact layout would fill, that only the size limit forbids, or that
/// have the room but cannot shed the heat.
void look_for_cheaper(PanelChoice& choice, ShedTable& shed) {
    const SearchFacts& search = *choice.search;
    const PanelDesign& design = *choice.design;
    const Box& box = *search.facts.box;
    if (box.choices.enclosure != EnclosureChoice::choose) return;
    const Money own = *design.enclosure->net();
    const RoomRules& rules = search.rules->room;
    for (const Part* part : search.book->of_kind("enclosure")) {
        if (!usable_enclosure(*part, search.facts) || *part->net() >= own) continue;
        if (!deep_enough(design.need, *part, rules)) continue;
        const bool size = within_size(*part, box.site);
        const bool by_rule = room_plan(design.need, *part, box.choices.room, rules).has_value();
        const std::int64_t heat =
            shed.milliwatts(*part, design.stage_index, design.stage, highest_top(design, search));
        if (need_in(design.inside.value, 0.001) > heat) {
            choice.heat_decides = choice.heat_decides || (size && by_rule);
            continue;
        }
        const bool exact = exact_room(design.need, {}, *part, box.choices.room, rules).has_value();
        if (size ? (by_rule || !exact) : !by_rule) continue;
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
    std::vector<Start> starts;
    for (const PlatformCase& platform : cases) {
        if (platform.limits.empty())
            add_starts(platform, choice, work, starts);
        else
            for (const std::string& limit : platform.limits)
                if (std::find(choice.limits.begin(), choice.limits.end(), limit) ==
                    choice.limits.end())
                    choice.limits.push_back(limit);
    }
    PanelSearch(choice, refusals, shed, work).run(std::move(starts));
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
