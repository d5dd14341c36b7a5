#include "pricing/panel/line_wiring.h"

#include <algorithm>

namespace backplate {
namespace {

using Table = std::map<std::string, Rule>;

const Rule* row_of(const Table& table, const std::string& key) {
    const auto found = table.find(key);
    return found == table.end() ? nullptr : &found->second;
}

/// The first of the keys for which both tables have a row; empty where none has.
std::string common_key(const RuleBook& rules, const std::vector<std::string>& keys) {
    for (const std::string& key : keys)
        if (row_of(rules.terminals, key) && row_of(rules.wires, key)) return key;
    return {};
}

void add_functions(ChannelWiring& wiring, const RuleBook& rules, const std::string& key) {
    for (const TerminalFunction& row : rules.terminal_functions)
        if (row.channel == key) wiring.functions.push_back({row.function, row.pieces});
}

ChannelWiring by_row(const RuleBook& rules, const std::string& key) {
    ChannelWiring wiring;
    wiring.terminals = {&rules.terminals.at(key)};
    wiring.wires = {&rules.wires.at(key)};
    add_functions(wiring, rules, key);
    return wiring;
}

/// One terminal of the channel takes the function on; a channel that has one already keeps it.
void take_on(ChannelWiring& wiring, const std::string& function) {
    if (function.empty() || wiring.terminals.front()->number() <= 0) return;
    const auto has = [&](const TerminalShare& share) { return share.function == function; };
    if (!std::any_of(wiring.functions.begin(), wiring.functions.end(), has))
        wiring.functions.push_back({function, 1});
}

ChannelWiring through(const DemandLine& line, const RuleBook& rules, const ChannelWiring& direct) {
    const PointLine& points = *line.points;
    std::vector<std::string> own{points.signal + " " + points.wiring + " " + points.via};
    if (points.wiring == line.signal->wiring) own.push_back(points.signal + " " + points.via);
    const std::string key = common_key(rules, own);
    ChannelWiring wiring = key.empty() ? direct : by_row(rules, key);
    if (key.empty()) {
        const Interface& row = *line.interface;
        if (row.terminals_change.number() != 0) wiring.terminals.push_back(&row.terminals_change);
        if (row.wires_change.number() != 0) wiring.wires.push_back(&row.wires_change);
    }
    take_on(wiring, line.interface->terminal_function);
    return wiring;
}

} // namespace

std::int64_t piece_steps(const Rule& rule) { return round_to_steps(rule.value, 4, Rounding::up); }

int whole_pieces(std::int64_t steps) {
    return static_cast<int>((steps + steps_per_piece / 2) / steps_per_piece);
}

std::int64_t piece_steps(const std::vector<const Rule*>& rows) {
    std::int64_t sum = 0;
    for (const Rule* rule : rows) sum += piece_steps(*rule);
    return sum;
}

LineWiring line_wiring(const DemandLine& line, const RuleBook& rules,
                       std::vector<std::string>& limits) {
    LineWiring wiring;
    const std::string usual = line.points->signal + " " + line.points->wiring;
    std::vector<std::string> keys{usual};
    if (line.points->fed_from_box) keys.insert(keys.begin(), usual + " fed");
    const std::string key = common_key(rules, keys);
    if (key.empty()) {
        limits.push_back("no rule row for terminals or wires of " + usual);
        return wiring;
    }
    wiring.direct = by_row(rules, key);
    if (line.interface) wiring.via = through(line, rules, wiring.direct);
    return wiring;
}

} // namespace backplate
