#include <algorithm>
#include <map>

#include "pricing/mix/accepts.h"

#include "pricing/panel/conductors.h"
#include "pricing/panel/panel_design.h"

namespace backplate {
namespace {

bool anything(const Part&, double) { return true; }
bool is_plain_terminal(const Part& part, double) {
    return part.width_mm.value_or(0) > 0 &&
           (part.function.empty() || part.function == "feed-through");
}
bool has_rating(const Part& part, double) { return part.rated_a.has_value(); }

/// The largest current that one protection channel must carry: a piece of equipment, or the outputs
/// of the largest channel group that a line may fill, all on.
double largest_consumer(const BoxFacts& facts, const PriceBook& book) {
    double largest = 0;
    for (const EquipmentFact& fact : facts.equipment) largest = std::max(largest, fact.amps_24v);
    for (const MixLine& line : facts.demand.mix) {
        const DemandLine& front = facts.demand.lines[line.lines.front()];
        if (!line.switched || line.amps <= 0) continue;
        const bool fed =
            front.points->fed_from_box || (front.interface && !front.interface->keeps_signal());
        for (const Part* part : book.of_kind("module"))
            for (const ChannelGroup& group : part->groups)
                if (fed && may_choose(*part, *facts.box, *facts.request))
                    largest = std::max(largest,
                                       line.amps * std::min(accepts(group, line), line.channels));
    }
    return largest;
}

/// The cheapest terminal of the function that carries the amperes.
const Part* terminal_with(const PriceBook& book, const BoxFacts& facts, const std::string& function,
                          double amps) {
    return cheapest_where(book, "terminal", facts, [&](const Part& part) {
        return part.function == function && part.width_mm.value_or(0) > 0 &&
               (!part.rated_a || *part.rated_a >= amps);
    });
}

/// A price book whose terminals name no function does not tell them apart: all are plain.
bool tells_terminals_apart(const PriceBook& book) {
    const auto terminals = book.of_kind("terminal");
    return std::any_of(terminals.begin(), terminals.end(),
                       [](const Part* part) { return !part->function.empty(); });
}

/// Terminals by the functions that the lines ask for, each for the largest current among them.
void add_own_terminals(FixedParts& parts, const PriceBook& book, const BoxFacts& facts) {
    if (!tells_terminals_apart(book)) return;
    std::map<std::string, double> amps;
    for (std::size_t i = 0; i < facts.wiring.size(); ++i)
        for (const ChannelWiring* way : {&facts.wiring[i].direct, &facts.wiring[i].via})
            for (const TerminalShare& share : way->functions) {
                double& most = amps[share.function];
                most = std::max(most, facts.demand.lines[i].points->amps);
            }
    for (const auto& [function, most] : amps) {
        const Part* part = terminal_with(book, facts, function, most);
        if (part)
            parts.own_terminals.emplace_back(function, part);
        else
            parts.plain_instead.push_back(function);
    }
}

/// By platform the cheapest part with which a station goes on in a further row.
std::map<std::string, const Part*> bus_extensions(const PriceBook& book, const BoxFacts& facts) {
    std::map<std::string, const Part*> parts;
    for (const Part* part : book.of_kind("accessory"))
        if (part->function == "bus extension") parts.emplace(part->platform, nullptr);
    for (auto& [platform, best] : parts)
        best = cheapest_where(book, "accessory", facts, [&](const Part& part) {
            return part.function == "bus extension" && part.platform == platform;
        });
    return parts;
}

} // namespace

FixedParts fixed_parts(const PriceBook& book, const BoxFacts& facts, const RuleBook& rules) {
    FixedParts parts;
    parts.terminal = cheapest(book, "terminal", facts, is_plain_terminal, 0);
    add_own_terminals(parts, book, facts);
    parts.rail = cheapest(book, "rail", facts, anything, 0);
    parts.wire = cheapest(book, "wire", facts, anything, 0);
    const double largest = largest_consumer(facts, book);
    for (const Part* part : book.of_kind("protection"))
        if (may_choose(*part, *facts.box, *facts.request) && part->function != control_fuse &&
            part->rated_a.value_or(0) >= largest)
            parts.protections.push_back(part);
    parts.cheapest_breaker = cheapest(book, "incoming", facts, has_rating, 0);
    if (switches_per_feed(rules) > 0)
        parts.cheapest_switch = cheapest(book, "main_switch", facts, has_rating, 0);
    for (const Part* duct : book.of_kind("duct"))
        if (may_choose(*duct, *facts.box, *facts.request)) parts.ducts.push_back(duct);
    parts.joining = cheapest_of(book, "accessory", "joining kit", facts);
    parts.bus_extensions = bus_extensions(book, facts);
    const auto missing = [&](bool there, const char* what) {
        if (!there) parts.missing.push_back(std::string("no ") + what + " in the price book");
    };
    missing(parts.terminal, "terminal with a width");
    missing(parts.rail, "mounting rail");
    missing(parts.wire, "wire");
    if (parts.protections.empty())
        parts.missing.push_back("no 24 V protection channel of " + number_text(largest, 2) +
                                " A in the price book");
    missing(!parts.ducts.empty(), "wire duct");
    return parts;
}

} // namespace backplate
