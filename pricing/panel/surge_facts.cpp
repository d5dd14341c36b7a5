#include "pricing/panel/surge_facts.h"

#include <algorithm>

#include "pricing/cost/conditions.h"
#include "pricing/panel/panel_design.h"

namespace backplate {
namespace {

const SurgeRow* row_of(const BoxFacts& facts) {
    for (const SurgeRow& row : facts.rules->surge_protection)
        if (condition_holds(row.condition, *facts.request, *facts.box, *facts.rules)) return &row;
    return nullptr;
}

bool is_arrester(const Part& part, const SurgeRow& row) {
    const auto& functions = row.functions;
    return part.kind == row.part_kind &&
           std::find(functions.begin(), functions.end(), part.function) != functions.end();
}

/// The largest breaker of the mains up to the rating, of equal ones the cheapest.
const Part* breaker_up_to(const PriceBook& book, const BoxFacts& facts, double most_a) {
    double largest = 0;
    for (const Part* part : book.of_kind("incoming"))
        if (serves_as_incoming(*part, facts) && *part->rated_a <= most_a)
            largest = std::max(largest, *part->rated_a);
    return cheapest_where(book, "incoming", facts, [&](const Part& part) {
        return serves_as_incoming(part, facts) && *part.rated_a == largest;
    });
}

} // namespace

bool protects_mains(const Part& arrester, const Site& site) {
    if (!arrester.input_max_v || !arrester.poles || !fits_mains(arrester, site)) return false;
    const bool phases = direct_current(site) || arrester.phases == site.phases;
    return phases && *arrester.poles == live_conductors(site);
}

void add_surge(BoxFacts& facts, const PriceBook& book) {
    SurgeFact& surge = facts.surge;
    surge.row = row_of(facts);
    if (!surge.row) return;
    for (EquipmentFact& fact : facts.equipment)
        if (fact.part && fact.asked->quantity > 0 && is_arrester(*fact.part, *surge.row)) {
            surge.by_hand = true;
            fact.band = Band::mains;
        }
    if (surge.by_hand) return;
    const Site& site = facts.box->site;
    surge.arrester = cheapest_where(book, surge.row->part_kind, facts, [&](const Part& part) {
        return is_arrester(part, *surge.row) && protects_mains(part, site);
    });
    if (!surge.arrester) return;
    add_equipment(facts, *surge.arrester, site.feeds, book).band = Band::mains;
    if (!surge.row->breaker_a) return;
    surge.breaker = breaker_up_to(book, facts, surge.row->breaker_a->number());
    if (surge.breaker) add_equipment(facts, *surge.breaker, site.feeds, book);
}

} // namespace backplate
