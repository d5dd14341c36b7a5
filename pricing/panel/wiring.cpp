#include "pricing/panel/wiring.h"

namespace backplate {
namespace {

using Table = std::map<std::string, Rule>;

std::int64_t whole(const Rule& rule) { return round_to_steps(rule.value, 0, Rounding::up); }

const Rule* row_of(const Table& table, const std::string& key) {
    const auto found = table.find(key);
    return found == table.end() ? nullptr : &found->second;
}

void add(std::vector<CountTerm>& terms, std::int64_t count, const Rule* rule) {
    if (count == 0 || !rule) return;
    for (CountTerm& term : terms)
        if (term.rule == rule) {
            term.count += count;
            return;
        }
    terms.push_back({count, rule});
}

/// Row of a piece: of its kind, else of its group, else none.
const Rule* row_of_piece(const Table& table, const std::string& kind, const char* group) {
    if (const Rule* own = row_of(table, "per " + kind)) return own;
    return row_of(table, group);
}

const char* wire_group(const std::string& kind) {
    for (const char* platform : {"controller", "head", "feed", "module"})
        if (kind == platform) return "per module";
    for (const char* none : {"accessory", "interface", "terminal", "rail", "duct", "wire",
                             "enclosure", "plate", "cooling"})
        if (kind == none) return "";
    return "per device";
}

/// Channels fitted beyond the requirement, by mix line; none where the spare is not wired.
std::int64_t extra_channels(const PanelDesign& design, const SearchFacts& search, std::size_t mix) {
    std::int64_t extra = 0;
    if (search.facts.request->spare.wired())
        for (const ModuleUse& use : design.arrangement->member.uses) extra += use.extra[mix];
    return extra;
}

/// The dearest row of the lines that share channels.
const Rule* dearest(const SearchFacts& search, const MixLine& mix,
                    const Rule* LineWiring::*column) {
    const Rule* best = nullptr;
    for (const std::size_t line : mix.lines) {
        const Rule* rule = search.facts.wiring[line].*column;
        if (rule && (!best || whole(*rule) > whole(*best))) best = rule;
    }
    return best;
}

void add_channels(std::vector<CountTerm>& terms, const PanelDesign& design,
                  const SearchFacts& search, const Rule* LineWiring::*direct,
                  const Rule* LineWiring::*via) {
    for (const LineWiring& line : search.facts.wiring) {
        add(terms, line.direct, line.*direct);
        add(terms, line.via, line.*via);
    }
    const auto& mix = search.facts.demand.mix;
    for (std::size_t i = 0; i < mix.size(); ++i)
        add(terms, extra_channels(design, search, i), dearest(search, mix[i], direct));
}

template <class Group>
void add_devices(std::vector<CountTerm>& terms, const PanelDesign& design, const Table& table,
                 Group group) {
    for (const BillItem& item : design.bill) {
        if (item.equipment && item.equipment->where == "outside") continue;
        const std::string kind = item.part ? item.part->kind : "device";
        add(terms, item.quantity, row_of_piece(table, kind, group(kind)));
    }
}

} // namespace

std::vector<CountTerm> signal_terminal_terms(const PanelDesign& design, const SearchFacts& search) {
    std::vector<CountTerm> terms;
    add_channels(terms, design, search, &LineWiring::terminals, &LineWiring::via_terminals);
    return terms;
}

std::vector<CountTerm> device_terminal_terms(const PanelDesign& design, const SearchFacts& search) {
    std::vector<CountTerm> terms;
    const Table& table = search.rules->terminals;
    for (const char* row : {"incoming", "distribution"}) add(terms, 1, row_of(table, row));
    add_devices(terms, design, table, [](const std::string&) { return ""; });
    return terms;
}

std::vector<CountTerm> wire_terms(const PanelDesign& design, const SearchFacts& search) {
    std::vector<CountTerm> terms;
    add_channels(terms, design, search, &LineWiring::wires, &LineWiring::via_wires);
    add_devices(terms, design, search.rules->wires, wire_group);
    add(terms, 1, row_of(search.rules->wires, "per box"));
    return terms;
}

std::int64_t sum_of(const std::vector<CountTerm>& terms) {
    std::int64_t sum = 0;
    for (const CountTerm& term : terms) sum += term.count * whole(*term.rule);
    return sum;
}

} // namespace backplate
