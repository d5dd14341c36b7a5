#include "pricing/panel/link_facts.h"

namespace backplate {
namespace {

void add_ends(BoxFacts& facts, const Box& led, int pieces, const PriceBook& book,
              const RuleBook& rules) {
    facts.links += pieces;
    const LinkRow* row = link_of(led, rules);
    const Part* part = row ? link_part(book, facts, *row) : nullptr;
    if (part) add_equipment(facts, *part, pieces, book);
}

} // namespace

const LinkRow* link_of(const Box& box, const RuleBook& rules) {
    return box.controlled_by == ControlledBy::other_box ? rules.find_link(box.link.medium)
                                                        : nullptr;
}

const Part* link_part(const PriceBook& book, const BoxFacts& facts, const LinkRow& row) {
    return cheapest_of(book, row.part_kind, row.function, facts);
}

void add_links(BoxFacts& facts, const PriceBook& book, const RuleBook& rules) {
    const Box& box = *facts.box;
    if (box.controlled_by == ControlledBy::other_box) return add_ends(facts, box, 1, book, rules);
    for (const Box& other : facts.request->boxes)
        if (other.controlled_by == ControlledBy::other_box && other.controller_box == box.index)
            add_ends(facts, other, other.per_system, book, rules);
}

} // namespace backplate
