#include "pricing/panel/assembly_facts.h"

namespace backplate {
namespace {

/// Quantities by name: the same assembly twice in a list has its first piece once.
std::map<std::string, int> quantities(const Box& box) {
    std::map<std::string, int> result;
    for (const AskedAssembly& asked : box.assemblies) result[asked.name] += asked.quantity;
    return result;
}

const Part* cheapest_with(const PriceBook& book, const BoxFacts& facts,
                          const std::string& function) {
    const Part* best = nullptr;
    for (const Part& part : book.parts()) {
        if (part.function != function || !may_choose(part, *facts.box, *facts.request)) continue;
        if (!best || *part.net() < *best->net()) best = &part;
    }
    return best;
}

EquipmentFact fact_of(const AssemblyRow& row, const Part* part, const Equipment& asked,
                      double volts) {
    EquipmentFact fact;
    fact.asked = &asked;
    fact.part = part;
    fact.where = asked.where;
    fact.of_assembly = true;
    if (part) {
        fact.width_mm = part->width_mm.value_or(0);
        fact.height_mm = part->height_mm.value_or(0);
        fact.depth_mm = part->depth_mm.value_or(0);
        fact.amps_24v = part->own_a.value_or(0);
        fact.inside_w = part->own_w.value_or(fact.amps_24v * volts);
        return fact;
    }
    fact.width_mm = row.width_mm;
    fact.amps_24v = row.current_ma / 1000;
    fact.inside_w = row.heat_w;
    return fact;
}

void add_part(BoxFacts& facts, const AssemblyRow& row, int pieces, const PriceBook& book,
              double volts) {
    for (EquipmentFact& fact : facts.equipment) {
        if (!fact.of_assembly || fact.asked->text != row.function) continue;
        auto more = std::make_shared<Equipment>(*fact.asked);
        more->quantity += pieces;
        facts.added_equipment.push_back(more);
        fact.asked = more.get();
        return;
    }
    auto asked = std::make_shared<Equipment>();
    const Part* part = cheapest_with(book, facts, row.function);
    asked->text = row.function;
    asked->quantity = pieces;
    asked->where = row.where.empty() ? "rail" : row.where;
    facts.added_equipment.push_back(asked);
    facts.equipment.push_back(fact_of(row, part, *asked, volts));
}

} // namespace

void add_assemblies(BoxFacts& facts, const PriceBook& book, const RuleBook& rules) {
    for (const auto& [name, quantity] : quantities(*facts.box))
        for (const AssemblyRow& row : rules.assemblies) {
            const int times = row.assembly == name ? row.times(quantity) : 0;
            if (times == 0) continue;
            if (row.brings == AssemblyRow::Brings::part)
                add_part(facts, row, times * static_cast<int>(row.count.number()), book,
                         rules.supply.volts.number());
            else
                facts.assemblies.push_back({&row, times});
        }
}

std::int64_t assembly_sum(const BoxFacts& facts, AssemblyRow::Brings brings,
                          AssemblyRow::Occurrence occurrence) {
    std::int64_t sum = 0;
    for (const AssemblyFact& fact : facts.assemblies)
        if (fact.row->brings == brings && fact.row->occurrence == occurrence)
            sum += fact.times * need_in(fact.row->count.number(), 1);
    return sum;
}

bool brings_minutes(const BoxFacts& facts, const PointLine& points) {
    if (!points.of_assembly) return false;
    const std::string& name = facts.box->assemblies[points.of_assembly->assembly].name;
    for (const AssemblyFact& fact : facts.assemblies)
        if (fact.row->brings == AssemblyRow::Brings::minutes && fact.row->assembly == name)
            return true;
    return false;
}

} // namespace backplate
