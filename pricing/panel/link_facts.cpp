#include "pricing/panel/link_facts.h"

#include <algorithm>

namespace backplate {
namespace {

void add_pieces(BoxFacts& facts, const Part& part, int pieces, const PriceBook& book,
                double volts) {
    const auto same = [&](const EquipmentFact& fact) {
        return fact.part == &part && !fact.of_assembly && fact.where == "rail";
    };
    const auto known = std::find_if(facts.equipment.begin(), facts.equipment.end(), same);
    auto asked = std::make_shared<Equipment>();
    if (known == facts.equipment.end()) {
        asked->part = part.key;
        asked->quantity = pieces;
        facts.equipment.push_back(equipment_fact(*asked, book, volts));
    } else {
        *asked = *known->asked;
        asked->quantity += pieces;
        known->asked = asked.get();
    }
    facts.added_equipment.push_back(std::move(asked));
}

void add_ends(BoxFacts& facts, const Box& led, int pieces, const PriceBook& book,
              const RuleBook& rules) {
    facts.links += pieces;
    const LinkRow* row = link_of(led, rules);
    const Part* part = row ? link_part(book, facts, *row) : nullptr;
    if (part) add_pieces(facts, *part, pieces, book, rules.supply.volts.number());
}

} // namespace

const LinkRow* link_of(const Box& box, const RuleBook& rules) {
    return box.controlled_by == ControlledBy::other_box ? rules.find_link(box.link.medium)
                                                        : nullptr;
}

const Part* link_part(const PriceBook& book, const BoxFacts& facts, const LinkRow& row) {
    const Part* best = nullptr;
    for (const Part* part : book.of_kind(row.part_kind)) {
        if (part->function != row.function) continue;
        if (!may_choose(*part, *facts.box, *facts.request)) continue;
        if (!best || *part->net() < *best->net()) best = part;
    }
    return best;
}

void add_links(BoxFacts& facts, const PriceBook& book, const RuleBook& rules) {
    const Box& box = *facts.box;
    if (box.controlled_by == ControlledBy::other_box) return add_ends(facts, box, 1, book, rules);
    for (const Box& other : facts.request->boxes)
        if (other.controlled_by == ControlledBy::other_box && other.controller_box == box.index)
            add_ends(facts, other, other.per_system, book, rules);
}

} // namespace backplate
