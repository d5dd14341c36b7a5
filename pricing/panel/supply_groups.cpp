#include "pricing/panel/supply_groups.h"

#include <algorithm>
#include <limits>

#include "pricing/panel/candidate.h"

namespace backplate {
namespace {

double future_of(const SearchFacts& search) {
    return 1 + search.facts.box->choices.future_load.fraction();
}

BoxLoad load_of(const SearchFacts& search, std::size_t group) {
    return sum_of_group(search.fixed, group + 1);
}

/// What a part before the loads draws itself, at the control voltage.
void add_own(GroupSupply& supply, const Part* part, int pieces, const SearchFacts& search) {
    if (!part) return;
    const double own = part->own_a.value_or(0) * pieces;
    supply.own_w += Watts{own * search.rules->supply.volts.number()};
    supply.together.value += own * future_of(search);
    supply.all_on.value += own * future_of(search);
}

/// Channels of the group: the cheapest article that carries its largest consumer.
void add_channels(GroupSupply& supply, const SearchFacts& search) {
    for (const Part* part : search.parts.protections) {
        const auto pieces = static_cast<int>(need_in(supply.protected_a / *part->rated_a, 1));
        const std::int64_t price = part->net()->steps() * pieces;
        if (supply.protection && price >= supply.protection->net()->steps() * supply.channels)
            continue;
        supply.protection = part;
        supply.channels = pieces;
    }
    add_own(supply, supply.protection, supply.channels, search);
}

GroupSupply loaded(const SearchFacts& search, std::size_t group) {
    GroupSupply supply;
    supply.group = group;
    const BoxLoad load = load_of(search, group);
    supply.together = {load.together_a * future_of(search)};
    supply.all_on = {load.all_on_a * future_of(search)};
    supply.protected_a = supply.all_on.value;
    if (search.facts.groups[group].word == "outputs") add_channels(supply, search);
    return supply;
}

std::vector<GroupSupply> supplied(const SearchFacts& search, std::size_t group) {
    const LoadGroup& asked = search.facts.groups[group];
    const RuleBook& rules = *search.rules;
    std::vector<GroupSupply> found;
    const auto choices = asked.word == "outputs"
                             ? supply_choices(*search.book, search.facts, rules)
                             : supply_choices_at(asked.volts, *search.book, search.facts, rules);
    for (const SupplyChoice& choice : choices) {
        GroupSupply supply = loaded(search, group);
        supply.units = choice;
        add_own(supply, choice.decoupler, choice.decouplers, search);
        const auto air =
            highest_air(choice, supply.together, search.facts.box->site.altitude_m, rules.supply);
        if (!air) continue;
        supply.highest_air = *air;
        supply.units.wire = supply_wire(*search.book, search.facts, search.parts, choice.unit_a(),
                                        choice.carrying());
        if (!supply.units.wire) continue;
        supply.loss = supply_loss(choice, supply.all_on, rules.supply);
        supply.watts_at_mains = supply.all_on.value * asked.volts + supply.loss.value;
        found.push_back(std::move(supply));
    }
    return found;
}

/// Conductors of the side that are not earthed: both where it lies between two lines.
int lines_of(const Part& transformer, const Site& site) {
    const bool between = site.phases == 3 || !site.neutral;
    return between && volts_at(transformer, site) == site.volts ? 2 : 1;
}

/// The cheapest control fuse of the rating that the limit leads to, for so many lines.
void protect(SideProtection& side, double volts, int lines, const SearchFacts& search) {
    std::vector<double> ratings;
    std::vector<const Part*> parts;
    for (const Part* part : search.book->of_kind("protection")) {
        if (part->function != control_fuse || !part->rated_a ||
            !may_choose(*part, *search.facts.box, *search.facts.request) ||
            part->input_max_v.value_or(volts) < volts)
            continue;
        parts.push_back(part);
        ratings.push_back(*part->rated_a);
    }
    side.pieces = lines;
    const auto rating = rating_within(side.limit, side.rated_a, ratings);
    for (const Part* part : parts)
        if (rating == part->rated_a && (!side.part || *part->net() < *side.part->net()))
            side.part = part;
}

bool protected_by_fuses(const GroupSupply& supply) {
    for (const SideProtection* side : {&supply.primary, &supply.secondary})
        if (side->pieces > 0 && !side->part) return false;
    return true;
}

/// Without the transformers that the price book has no fuses for, unless it has them for none.
std::vector<GroupSupply> with_fuses(std::vector<GroupSupply> found) {
    if (std::any_of(found.begin(), found.end(), protected_by_fuses))
        std::erase_if(found, [](const GroupSupply& each) { return !protected_by_fuses(each); });
    return found;
}

std::vector<GroupSupply> transformed(const SearchFacts& search, std::size_t group) {
    const LoadGroup& asked = search.facts.groups[group];
    const Site& site = search.facts.box->site;
    std::vector<GroupSupply> found;
    if (!search.rules->transformers) return found;
    const TransformerRules& rules = *search.rules->transformers;
    const bool both = rules.secondary_protection.number() >= 1;
    for (const Part* part : search.book->of_kind("transformer")) {
        if (!part->rated_va || part->output_v != asked.volts || !fits_mains(*part, site) ||
            !may_choose(*part, *search.facts.box, *search.facts.request))
            continue;
        GroupSupply supply = loaded(search, group);
        const double va = *part->rated_va;
        if (va * nameplate_share(rules) < supply.together.value * asked.volts) continue;
        supply.units.part = part;
        supply.units.wire =
            supply_wire(*search.book, search.facts, search.parts, va / asked.volts, 1);
        if (!supply.units.wire) continue;
        supply.loss = {part->own_w.value_or(va * rules.loss_percent.number() / 100)};
        supply.watts_at_mains = supply.all_on.value * asked.volts + supply.loss.value;
        supply.highest_air = {std::numeric_limits<double>::infinity()};
        const double volts = *volts_at(*part, site);
        supply.primary.rated_a = va / volts;
        supply.primary.limit = primary_limit(supply.primary.rated_a, !both, rules);
        protect(supply.primary, volts, lines_of(*part, site), search);
        if (both) {
            supply.secondary.rated_a = va / asked.volts;
            supply.secondary.limit = secondary_limit(supply.secondary.rated_a, rules);
            protect(supply.secondary, asked.volts, 1, search);
        }
        found.push_back(std::move(supply));
    }
    return with_fuses(std::move(found));
}

bool in_no_way_worse(const Part* one, const Part* other) {
    if (!one || !other) return one == other;
    const double infinite = std::numeric_limits<double>::infinity();
    return *one->net() <= *other->net() && one->accessories == other->accessories &&
           one->width_mm.value_or(0) <= other->width_mm.value_or(0) &&
           one->height_mm.value_or(0) <= other->height_mm.value_or(0) &&
           one->depth_mm.value_or(0) <= other->depth_mm.value_or(0) &&
           one->max_c.value_or(infinite) >= other->max_c.value_or(infinite) &&
           one->min_c.value_or(-infinite) <= other->min_c.value_or(-infinite);
}

/// Every part, piece by piece, and what the mains and the air see of it.
bool stands_in(const GroupSupply& one, const GroupSupply& other, const Site& site) {
    const auto own = one.parts(), others = other.parts();
    if (own.size() != others.size() || !in_no_way_worse(one.units.wire, other.units.wire))
        return false;
    for (std::size_t i = 0; i < own.size(); ++i)
        if (own[i].second > others[i].second || !in_no_way_worse(own[i].first, others[i].first))
            return false;
    const auto at_mains = [&](const GroupSupply& supply) {
        return supply.watts_at_mains * amps_per_watt(*supply.units.part, site);
    };
    return at_mains(one) <= at_mains(other) && one.loss.value <= other.loss.value &&
           one.highest_air.value >= other.highest_air.value &&
           inrush_of(one.units, site.feeds) <= inrush_of(other.units, site.feeds);
}

bool may_be_main(const GroupSupply& supply, const SearchFacts& search) {
    return std::any_of(search.supplies.begin(), search.supplies.end(),
                       [&](const SupplyChoice& main) { return main.part == supply.units.part; });
}

std::vector<GroupSupply> unbeaten(const std::vector<GroupSupply>& all, const SearchFacts& search) {
    const Site& site = search.facts.box->site;
    std::vector<GroupSupply> kept;
    for (std::size_t i = 0; i < all.size(); ++i) {
        bool beaten = false;
        for (std::size_t k = 0; k < all.size() && !beaten; ++k)
            beaten = k != i && stands_in(all[k], all[i], site) &&
                     (k < i || !stands_in(all[i], all[k], site));
        if (!beaten || may_be_main(all[i], search)) kept.push_back(all[i]);
    }
    return kept;
}

bool wants_supply(const SearchFacts& search, std::size_t group) {
    return !search.facts.groups[group].on_mains && load_of(search, group).all_on_a > 0;
}

} // namespace

Amperes GroupSupply::rated() const {
    return {transforms() ? *units.part->rated_va / *units.part->output_v : units.rated_a()};
}

std::vector<std::pair<const Part*, int>> GroupSupply::parts() const {
    std::vector<std::pair<const Part*, int>> all{{units.part, units.quantity}};
    for (const auto& [part, pieces] :
         {std::pair{units.decoupler, units.decouplers}, std::pair{protection, channels},
          std::pair{primary.part, primary.pieces}, std::pair{secondary.part, secondary.pieces}})
        if (part && pieces > 0) all.emplace_back(part, pieces);
    return all;
}

std::int64_t GroupSupply::price() const {
    std::int64_t sum = 0;
    for (const auto& [part, pieces] : parts()) sum += part->net()->steps() * pieces;
    return sum;
}

std::vector<GroupSupply> group_choices(const SearchFacts& search, std::size_t group) {
    return search.facts.groups[group].alternating ? transformed(search, group)
                                                  : supplied(search, group);
}

std::vector<FurtherSupplies> further_supplies(const SearchFacts& search) {
    std::vector<FurtherSupplies> ways(1);
    for (std::size_t group = 0; group < search.facts.groups.size(); ++group) {
        if (!wants_supply(search, group)) continue;
        const auto choices = unbeaten(group_choices(search, group), search);
        if (choices.empty()) continue;
        std::vector<FurtherSupplies> longer;
        for (const FurtherSupplies& way : ways)
            for (const GroupSupply& choice : choices) {
                longer.push_back(way);
                longer.back().groups.push_back(choice);
                longer.back().price += choice.price();
            }
        ways = std::move(longer);
    }
    std::stable_sort(ways.begin(), ways.end(),
                     [](const auto& a, const auto& b) { return a.price < b.price; });
    return ways;
}

std::vector<std::size_t> unfed_groups(const SearchFacts& search) {
    std::vector<std::size_t> unfed;
    for (std::size_t group = 0; group < search.facts.groups.size(); ++group)
        if (wants_supply(search, group) && group_choices(search, group).empty())
            unfed.push_back(group);
    return unfed;
}

Amperes direct_on_mains(const SearchFacts& search) {
    double amps = 0;
    for (std::size_t group = 0; group < search.facts.groups.size(); ++group)
        if (search.facts.groups[group].on_mains) amps += load_of(search, group).all_on_a;
    return {amps * future_of(search)};
}

} // namespace backplate
