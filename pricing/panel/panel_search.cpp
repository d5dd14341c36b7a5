#include "pricing/panel/panel_search.h"

#include <algorithm>
#include <limits>
#include <utility>

#include "pricing/panel/devices.h"

namespace backplate {

PanelSearch::PanelSearch(PanelChoice& choice, Refusals& refusals, ShedTable& shed, Work& work)
    : choice_(choice), search_(*choice.search), refusals_(refusals), shed_(shed), work_(work),
      best_(std::numeric_limits<std::int64_t>::max()) {
    auto& candidates = choice.search->housing.candidates;
    std::stable_sort(candidates.begin(), candidates.end(),
                     [](const Suite& a, const Suite& b) { return price_of(a) < price_of(b); });
    int most = 1;
    for (const Suite& each : candidates) {
        prices_.push_back(in_all_boxes(price_of(each), search_));
        most = std::max(most, each.pieces);
    }
    powers_.resize(static_cast<std::size_t>(most));
    list_powers();
}

void PanelSearch::list_powers() {
    int pieces = 0;
    for (std::vector<Power>& powers : powers_) {
        ++pieces;
        for (std::size_t i = 0; i < search_.supplies.size(); ++i)
            for (std::size_t n = 0; n < search_.further.size(); ++n)
                for (std::size_t k = 0; k < search_.stages.size(); ++k) {
                    const CoolingStage stage = stage_of(search_, k, pieces);
                    std::int64_t price = price_of(search_.supplies[i]) + search_.further[n].price;
                    if (stage.part) price += stage.part->net()->steps() * stage.quantity;
                    powers.push_back({i, n, k, in_all_boxes(price, search_)});
                }
        std::stable_sort(powers.begin(), powers.end(),
                         [](const Power& a, const Power& b) { return a.price < b.price; });
    }
}

void PanelSearch::run(std::vector<Start> starts) {
    for (Start& start : starts) bound(start);
    std::stable_sort(starts.begin(), starts.end(), [](const Start& a, const Start& b) {
        return a.least + a.least_more < b.least + b.least_more;
    });
    for (const Start& start : starts) {
        if (start.enclosures.empty()) {
            if (!narrowest_ || start.width < narrowest_->width) narrowest_ = start;
            continue;
        }
        if (dearer(start.least + start.least_more)) return;
        work_.check_stop();
        if (work_.exhausted() && found()) {
            if (choice_.proven) choice_.lower_bound = start.least + start.least_more;
            choice_.proven = false;
            return;
        }
        try_powers(start);
    }
}

void PanelSearch::say_why() {
    if (!found() && narrowest_) try_powers(*narrowest_);
}

std::optional<std::int64_t> PanelSearch::probe(Start start) {
    const std::int64_t known = best_;
    bound(start);
    probing_ = true;
    if (!start.enclosures.empty()) try_powers(start);
    probing_ = false;
    const std::int64_t least = std::exchange(best_, known);
    return least < known ? std::optional(least) : std::nullopt;
}

std::int64_t PanelSearch::least_with(Start start) const {
    bound(start);
    return start.enclosures.empty() ? std::numeric_limits<std::int64_t>::max()
                                    : start.least + start.least_more;
}

/// No panel with this arrangement costs less: the cheapest supply not too weak, and the cheapest
/// enclosure that holds the devices even without supply and incoming devices.
void PanelSearch::bound(Start& start) const {
    for (const Power& power : powers_.front())
        if (!too_weak(start.design, search_, search_.supplies[power.supply])) {
            start.power = power.price;
            start.least = least_cost(start.design, search_, search_.supplies[power.supply]) +
                          in_all_boxes(search_.further[power.further].price, search_);
            break;
        }
    const RoomNeed need = room_need(start.design, search_);
    for (const BandNeed& band : need.bands) start.width += band.width;
    bound_with(start, need, false);
    if (powers_.size() > 1) bound_with(start, need, true);
}

/// A suite that costs more than the cheapest enclosure alone is not looked into: its price bounds
/// it.
void PanelSearch::bound_with(Start& start, const RoomNeed& need, bool suites) const {
    const RoomDemand room = room_demand(need, search_);
    const bool alone = suites && !start.enclosures.empty();
    for (std::size_t i = 0; i < prices_.size(); ++i) {
        const Suite& enclosure = search_.housing.candidates[i];
        if ((enclosure.pieces > 1) != suites) continue;
        if (alone && prices_[i] >= start.least_more) {
            start.enclosures.push_back({i, prices_[i]});
            continue;
        }
        if (!deep_enough(need, *enclosure, search_.rules->room)) continue;
        const auto plan = room.on(enclosure);
        if (!plan) continue;
        const std::int64_t more = least_more_in(start.design, search_, enclosure, *plan);
        if (start.enclosures.empty() || more < start.least_more) start.least_more = more;
        start.enclosures.push_back({i, more});
    }
}

/// Enclosures alone come first, so that a suite is judged only where it may be cheaper.
void PanelSearch::try_powers(const Start& start) {
    for (int pieces = 1; pieces <= static_cast<int>(powers_.size()); ++pieces) {
        const StartSuites suites = suites_of(start, pieces);
        if (pieces == 1 || explains() || !suites.enclosures.empty()) try_powers(start, suites);
    }
}

/// Suites that their price alone does not leave out are looked into.
StartSuites PanelSearch::suites_of(const Start& start, int pieces) const {
    StartSuites suites{pieces, {}, std::numeric_limits<std::int64_t>::max() / 2};
    for (const StartEnclosure& each : start.enclosures)
        if (search_.housing.candidates[each.index].pieces == pieces &&
            (pieces == 1 || !dearer(start.least + each.more)))
            suites.enclosures.push_back(each);
    if (pieces > 1 && !suites.enclosures.empty()) look_closer(start, suites);
    for (const StartEnclosure& each : suites.enclosures)
        suites.least_more = std::min(suites.least_more, each.more);
    return suites;
}

void PanelSearch::look_closer(const Start& start, StartSuites& suites) const {
    PanelDesign design = start.design;
    const RoomNeed need = room_need(design, search_);
    const RoomDemand room = room_demand(need, search_);
    std::erase_if(suites.enclosures, [&](StartEnclosure& each) {
        const Suite& enclosure = search_.housing.candidates[each.index];
        const auto plan = room.on(enclosure);
        if (!plan || !deep_enough(need, *enclosure, search_.rules->room)) return true;
        each.more = least_more_in(design, search_, enclosure, *plan);
        return false;
    });
}

void PanelSearch::try_powers(const Start& start, const StartSuites& suites) {
    std::vector<bool> weak, known; // by supply
    weak.resize(search_.supplies.size());
    known.resize(search_.supplies.size());
    for (const Power& power : powers_[static_cast<std::size_t>(suites.pieces - 1)]) {
        if (dearer(start.least + suites.least_more - start.power + power.price)) return;
        const SupplyChoice& supply = search_.supplies[power.supply];
        if (!known[power.supply]) weak[power.supply] = too_weak(start.design, search_, supply);
        known[power.supply] = true;
        if (weak[power.supply]) {
            if (!explains()) continue;
            ++refusals_.count[Refusal::supply];
            refusals_.least_load = std::min(refusals_.least_load, start.design.load.together_a);
            continue;
        }
        if (!explains() && hopeless(start, power, suites)) continue;
        PanelDesign design = start.design;
        ++work_.counts.candidates;
        const Refusal refusal = with_power(design, search_, supply, search_.further[power.further],
                                           power.stage, suites.pieces);
        if (explains()) refusals_.note(refusal, design);
        if (refusal == Refusal::none) try_enclosures(start, design, suites);
    }
}

/// No enclosure that would make a cheaper panel sheds even the heat of these devices alone.
bool PanelSearch::hopeless(const Start& start, const Power& power, const StartSuites& suites) {
    if (!search_.housing.walls_known) return false;
    const std::int64_t inside = limit_in(start.design.load.inside_w, 0.001);
    const std::int64_t least = start.least - start.power + power.price;
    const auto no_load = highest_air(no_supply(), {}, 0, search_.rules->supply);
    const Celsius limit{std::min(device_limit(start.design, search_).value, no_load->value)};
    const CoolingStage stage = stage_of(search_, power.stage, suites.pieces);
    for (const auto& [i, more] : suites.enclosures) {
        const Suite& enclosure = search_.housing.candidates[i];
        if (dearer(least + more)) continue;
        if (inside <= shed_.milliwatts(enclosure, power.stage, stage, limit)) return false;
    }
    return true;
}

/// Before a panel is known every enclosure is judged, so that the refusals tell what binds.
void PanelSearch::try_enclosures(const Start& start, PanelDesign& powered,
                                 const StartSuites& suites) {
    const RoomDemand room = room_demand(powered.need, search_);
    const bool all = explains();
    const std::size_t count = all ? prices_.size() : suites.enclosures.size();
    const std::int64_t direct = powered.direct_cost; // without the work on the enclosure
    for (std::size_t k = 0; k < count; ++k) {
        const std::size_t i = all ? k : suites.enclosures[k].index;
        const Suite& enclosure = search_.housing.candidates[i];
        if (enclosure.pieces != suites.pieces) continue;
        if (dearer(direct + prices_[i])) return;
        if (!all && dearer(direct + suites.enclosures[k].more)) continue;
        ++work_.counts.candidates;
        std::optional<RoomPlan> plan;
        const Refusal first_look = look_into(powered, search_, room, enclosure, shed_, plan);
        if (first_look != Refusal::none) {
            note(first_look, powered, enclosure);
            continue;
        }
        if (dearer(cost_in(powered, search_, enclosure, *plan))) continue;
        PanelDesign design = powered;
        const Refusal refusal = in_enclosure(design, search_, enclosure, shed_);
        note(refusal, design, enclosure);
        if (refusal != Refusal::none || dearer(design.direct_cost)) continue;
        keep(start, std::move(design));
    }
}

void PanelSearch::keep(const Start& start, PanelDesign design) {
    best_ = design.direct_cost;
    if (probing_) return;
    choice_.platform = start.platform;
    choice_.design = std::move(design);
}

void PanelSearch::note(Refusal refusal, const PanelDesign& design, const Suite& enclosure) {
    if (!explains()) return;
    refusals_.note(refusal, design);
    if (refusal == Refusal::heat)
        refusals_.note_shed(shed_.milliwatts(enclosure, design.stage_index, design.stage,
                                             highest_top(design, search_)));
}

} // namespace backplate
