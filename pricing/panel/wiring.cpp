#include "pricing/panel/wiring.h"

#include <algorithm>

#include "pricing/panel/line_wiring.h"

namespace backplate {
namespace {

using Table = std::map<std::string, Rule>;
using Rows = std::vector<const Rule*> ChannelWiring::*;

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
    for (const char* none : {"accessory", "interface", "terminal", "rail", "duct", "wire", "labels",
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

/// The line with the dearest direct wiring of those that share channels, by rows of the column.
const ChannelWiring* dearest(const SearchFacts& search, const MixLine& mix, Rows column) {
    const ChannelWiring* best = nullptr;
    for (const std::size_t line : mix.lines) {
        const ChannelWiring& own = search.facts.wiring[line].direct;
        if (!best || piece_steps(own.*column) > piece_steps(best->*column)) best = &own;
    }
    return best;
}

void add_rows(std::vector<CountTerm>& terms, std::int64_t count,
              const std::vector<const Rule*>& rows) {
    for (const Rule* rule : rows) add(terms, count, rule);
}

void add_channels(std::vector<CountTerm>& terms, const PanelDesign& design,
                  const SearchFacts& search, Rows column) {
    for (const LineWiring& line : search.facts.wiring)
        for (const ChannelWiring* way : {&line.direct, &line.via})
            add_rows(terms, way->channels, way->*column);
    const auto& mix = search.facts.demand.mix;
    for (std::size_t i = 0; i < mix.size(); ++i)
        if (const std::int64_t extra = extra_channels(design, search, i))
            add_rows(terms, extra, dearest(search, mix[i], column)->*column);
}

void add_functions(std::vector<TerminalCount>& counts, const SearchFacts& search,
                   std::int64_t channels, const ChannelWiring& wiring) {
    for (const TerminalShare& share : wiring.functions)
        for (TerminalCount& count : counts)
            if (count.part != search.parts.terminal &&
                search.parts.terminal_of(share.function) == count.part)
                count.pieces += channels * share.pieces;
}

void add_pieces(std::vector<TerminalCount>& counts, const Part* part, std::int64_t pieces) {
    for (TerminalCount& count : counts)
        if (count.part == part) {
            count.pieces += pieces;
            return;
        }
    counts.push_back({part, pieces});
}

/// Terminals of the feeds leave the plain ones for such as take the conductor, those of a function
/// of their own for the protective conductor. Before the conductor is known they are left out, for
/// their width and price hang on it.
void take_incoming(std::vector<TerminalCount>& counts, const PanelDesign& design,
                   const SearchFacts& search) {
    const Rule* row = row_of(search.rules->terminals, "incoming");
    const std::int64_t feeds = search.facts.box->site.feeds;
    const std::int64_t all = row ? whole_pieces(feeds * piece_steps(*row)) : 0;
    counts.front().pieces -= all;
    if (!design.incoming.conductor) return;
    std::int64_t earthed = 0;
    for (const TerminalFunction& own : search.rules->terminal_functions)
        if (own.channel == "incoming") earthed += feeds * own.pieces;
    earthed = std::min(earthed, all);
    add_pieces(counts, design.incoming.terminal, all - earthed);
    add_pieces(counts, design.incoming.earth_terminal, earthed);
}

/// Power wires and terminals of assemblies, beyond those of their points.
void add_assembly(std::vector<CountTerm>& terms, const SearchFacts& search,
                  AssemblyRow::Brings brings) {
    for (const AssemblyFact& fact : search.facts.assemblies)
        if (fact.row->brings == brings) add(terms, fact.times, &fact.row->count);
}

template <class Group>
void add_devices(std::vector<CountTerm>& terms, const PanelDesign& design, const Table& table,
                 Group group) {
    for (const BillItem& item : design.bill) {
        if (item.equipment && item.equipment->where == "outside") continue;
        if (item.equipment && item.equipment->of_assembly) continue; // in the assembly's own rows
        const std::string kind = item.part ? item.part->kind : "device";
        add(terms, item.quantity, row_of_piece(table, kind, group(kind)));
    }
}

} // namespace

std::vector<CountTerm> signal_terminal_terms(const PanelDesign& design, const SearchFacts& search) {
    std::vector<CountTerm> terms;
    add_channels(terms, design, search, &ChannelWiring::terminals);
    return terms;
}

std::vector<CountTerm> device_terminal_terms(const PanelDesign& design, const SearchFacts& search) {
    std::vector<CountTerm> terms;
    const Table& table = search.rules->terminals;
    add(terms, search.facts.box->site.feeds, row_of(table, "incoming"));
    add(terms, 1, row_of(table, "distribution"));
    add_devices(terms, design, table, [](const std::string&) { return ""; });
    add_assembly(terms, search, AssemblyRow::Brings::terminals);
    return terms;
}

std::vector<CountTerm> wire_terms(const PanelDesign& design, const SearchFacts& search) {
    std::vector<CountTerm> terms;
    add_channels(terms, design, search, &ChannelWiring::wires);
    add_devices(terms, design, search.rules->wires, wire_group);
    add_assembly(terms, search, AssemblyRow::Brings::wires);
    add(terms, 1, row_of(search.rules->wires, "per box"));
    return terms;
}

std::vector<TerminalCount> terminal_counts(const PanelDesign& design, const SearchFacts& search) {
    std::vector<TerminalCount> counts{{search.parts.terminal, design.terminals}};
    for (const auto& [function, part] : search.parts.own_terminals) counts.push_back({part, 0});
    for (const LineWiring& line : search.facts.wiring)
        for (const ChannelWiring* way : {&line.direct, &line.via})
            add_functions(counts, search, way->channels, *way);
    const auto& mix = search.facts.demand.mix;
    for (std::size_t i = 0; i < mix.size(); ++i)
        if (const std::int64_t extra = extra_channels(design, search, i))
            add_functions(counts, search, extra,
                          *dearest(search, mix[i], &ChannelWiring::terminals));
    for (std::size_t i = 1; i < counts.size(); ++i) counts.front().pieces -= counts[i].pieces;
    take_incoming(counts, design, search);
    return counts;
}

std::int64_t piece_steps(const std::vector<CountTerm>& terms) {
    std::int64_t sum = 0;
    for (const CountTerm& term : terms) sum += term.count * piece_steps(*term.rule);
    return sum;
}

} // namespace backplate
