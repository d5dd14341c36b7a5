#include "pricing/panel/beaten_choices.h"

#include <algorithm>
#include <functional>
#include <limits>
#include <numeric>

#include "pricing/mix/distribute.h"
#include "pricing/panel/mains.h"

namespace backplate {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// Air and mains of a part that comes in so many pieces: one may stand where the other does.
bool stands_where(const Part& one, const Part& other, const Site& site) {
    return one.max_c.value_or(infinite) >= other.max_c.value_or(infinite) &&
           one.min_c.value_or(-infinite) <= other.min_c.value_or(-infinite) &&
           one.depth_mm.value_or(0) <= other.depth_mm.value_or(0) &&
           one.height_mm.value_or(0) <= other.height_mm.value_or(0) &&
           (one.accessories.empty() || one.accessories == other.accessories) &&
           amps_per_watt(one, site) <= amps_per_watt(other, site);
}

double total(const std::optional<double>& each, int quantity) {
    return each.value_or(0) * quantity;
}

/// Loss of `units` that share a load: at none, per ampere, per square ampere; watts.
struct Loss {
    double none, linear, square;
};

Loss loss_of(const SupplyChoice& choice, int units, const SupplyRules& rules) {
    const double rated = choice.unit_a() * units, volts = output_volts(*choice.part, rules);
    return {choice.loss->l0.number() * rated * volts, choice.loss->l1.number() * volts,
            choice.loss->l2.number() * volts / rated};
}

/// The difference is a parabola: it is judged at both ends and at its top.
bool loses_no_more(const Loss& one, const Loss& other, double from, double to) {
    const Loss more{one.none - other.none, one.linear - other.linear, one.square - other.square};
    const auto at = [&](double amps) {
        return more.none + more.linear * amps + more.square * amps * amps;
    };
    if (at(from) > 0 || at(to) > 0) return false;
    if (more.square >= 0) return true;
    const double top = -more.linear / (2 * more.square);
    return top <= from || top >= to || at(top) <= 0;
}

bool no_dearer(const Part* one, const Part* other) {
    if (!one || !other) return one == other;
    return *one->net() <= *other->net();
}

bool stands_in(const SupplyChoice& one, const SupplyChoice& other, double least_a, const Site& site,
               const SupplyRules& rules) {
    if (!one.part || !other.part || one.quantity > other.quantity ||
        one.redundant() != other.redundant() || one.rated_a() < other.rated_a() ||
        one.input_factor < other.input_factor || one.mounting_factor < other.mounting_factor ||
        inrush_of(one, site.feeds) > inrush_of(other, site.feeds) ||
        price_of(one) > price_of(other) || !no_dearer(one.wire, other.wire) ||
        total(one.part->width_mm, one.quantity) > total(other.part->width_mm, other.quantity) ||
        !stands_where(*one.part, *other.part, site))
        return false;
    if (one.decoupler != other.decoupler || one.decouplers > other.decouplers) return false;
    const double to = std::max(other.rated_a(), least_a);
    const auto loses = [&](int own, int others) {
        return loses_no_more(loss_of(one, own, rules), loss_of(other, others, rules), least_a, to);
    };
    return loses(one.quantity, other.quantity) && loses(one.carrying(), other.carrying());
}

bool stands_in(const CoolingStage& one, const CoolingStage& other, const Site& site) {
    if (!one.part || !other.part || one.name != other.name || one.quantity > other.quantity)
        return false;
    const Part &own = *one.part, &its = *other.part;
    const auto most = [&](const std::optional<double> Part::*field) {
        return total(own.*field, one.quantity) <= total(its.*field, other.quantity) &&
               (own.*field).has_value() == (its.*field).has_value();
    };
    const auto least = [&](const std::optional<double> Part::*field) {
        return total(own.*field, one.quantity) >= total(its.*field, other.quantity);
    };
    return own.net()->steps() * one.quantity <= its.net()->steps() * other.quantity &&
           most(&Part::own_a) && most(&Part::own_w) && least(&Part::flow_m3h) &&
           least(&Part::cooling_w) && least(&Part::cooling_w_k) && least(&Part::cooling_hot_w) &&
           own.cooling_hot_w.has_value() == its.cooling_hot_w.has_value() &&
           own.height_mm.value_or(0) <= its.height_mm.value_or(0) &&
           own.width_mm.value_or(0) <= its.width_mm.value_or(0) && stands_where(own, its, site);
}

template <class Choice, class StandsIn>
std::vector<Choice> unbeaten(std::vector<Choice> choices, const StandsIn& stands_in_for) {
    std::vector<Choice> kept;
    for (std::size_t i = 0; i < choices.size(); ++i) {
        bool beaten = false;
        for (std::size_t k = 0; k < choices.size() && !beaten; ++k)
            beaten = k != i && stands_in_for(choices[k], choices[i]) &&
                     (k < i || !stands_in_for(choices[i], choices[k]));
        if (!beaten) kept.push_back(choices[i]);
    }
    return kept;
}

/// What a controller, head or feed gives, and the places that a feed takes.
bool gives_no_less(const Part& one, const Part& other) {
    const bool places =
        one.kind == "feed" ? one.places <= other.places : one.places >= other.places;
    return places && one.bus_ma >= other.bus_ma && one.stations_max >= other.stations_max &&
           (one.pair || !other.pair);
}

/// In everything but price.
bool stands_in(const MixModule& one, const MixModule& other, const MixProblem& problem,
               const Site& site) {
    const Part &own = *one.part, &its = *other.part;
    const bool takes = own.kind == "module";
    for (std::size_t i = 0; i < one.sums.value.size(); ++i)
        if (one.sums.value[i] > other.sums.value[i] &&
            (takes || (i != MixSums::places && i != MixSums::bus)))
            return false;
    const auto no_more = [](const std::vector<std::int64_t>& a,
                            const std::vector<std::int64_t>& b) {
        return std::equal(a.begin(), a.end(), b.begin(), b.end(), std::less_equal<>());
    };
    return own.kind == its.kind && own.function == its.function && own.approvals == its.approvals &&
           own.rated_ka == its.rated_ka && own.combinations == its.combinations &&
           (takes || gives_no_less(own, its)) &&
           no_more(one.channel_current, other.channel_current) &&
           no_more(one.channel_heat, other.channel_heat) && stands_where(own, its, site) &&
           group_facts(own, problem) == group_facts(its, problem);
}

} // namespace

std::set<std::string> named_parts(const Box& box) {
    std::set<std::string> named{box.choices.enclosure_part};
    for (const KeptPart& kept : box.choices.keep) named.insert(kept.part);
    for (const ReplacedPart& each : box.choices.replace) named.insert(each.by);
    for (const Equipment& equipment : box.equipment) named.insert(equipment.part);
    return named;
}

PriceBook without_dearer_alike(const PriceBook& book, const Box& box, const BidRequest& request) {
    const std::set<std::string> named = named_parts(box);
    return book.without_dearer_alike(
        [&](const Part& part) { return may_choose(part, box, request); },
        [&](const Part& part) { return named.contains(part.key); });
}

std::vector<SupplyChoice> without_beaten(std::vector<SupplyChoice> supplies, double least_a,
                                         const Site& site, const SupplyRules& rules) {
    return unbeaten(std::move(supplies), [&](const SupplyChoice& one, const SupplyChoice& other) {
        return stands_in(one, other, least_a, site, rules);
    });
}

std::vector<CoolingStage> without_beaten(std::vector<CoolingStage> stages, const Site& site) {
    return unbeaten(std::move(stages), [&](const CoolingStage& one, const CoolingStage& other) {
        return stands_in(one, other, site);
    });
}

std::vector<MixModule> without_beaten(std::vector<MixModule> modules, const MixProblem& problem,
                                      const Site& site, const std::set<std::string>& stay,
                                      std::vector<const Part*>& beaten) {
    std::vector<std::size_t> order(modules.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return modules[a].sums[MixSums::cost] < modules[b].sums[MixSums::cost];
    });
    std::vector<std::size_t> kept;
    for (const std::size_t i : order) {
        const bool needed = stay.contains(modules[i].part->key);
        const bool serves = std::any_of(kept.begin(), kept.end(), [&](std::size_t cheaper) {
            return stands_in(modules[cheaper], modules[i], problem, site);
        });
        if (needed || !serves)
            kept.push_back(i);
        else
            beaten.push_back(modules[i].part);
    }
    std::sort(kept.begin(), kept.end());
    std::vector<MixModule> result;
    for (const std::size_t i : kept) result.push_back(std::move(modules[i]));
    return result;
}

} // namespace backplate
