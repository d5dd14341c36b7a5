#include "pricing/panel/load.h"

#include <algorithm>
#include <map>

#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

std::string equipment_path(const BoxFacts& facts, const EquipmentFact& fact, const char* key) {
    return "/boxes/" + steps_text(static_cast<std::int64_t>(facts.box->index), 0) + "/equipment/" +
           steps_text(static_cast<std::int64_t>(fact.asked->index), 0) + "/" + key;
}

/// A count that stands nowhere as a figure of its own: the formula holds it as a plain number.
BasisInput count_input(std::int64_t count) { return from_figure("", steps_text(count, 0), ""); }

/// Channels of a line that draw: the required figure itself where the line stands alone.
BasisInput planned_input(const BoxFacts& facts, std::size_t line) {
    const std::string& signal = facts.demand.lines[line].points->signal;
    for (std::size_t i = 0; i < facts.demand.signals.size(); ++i)
        if (facts.demand.signals[i].signal == signal &&
            facts.demand.signals[i].required == facts.planned[line])
            return from_figure("/points/" +
                                   steps_text(static_cast<std::int64_t>(facts.first_point + i), 0) +
                                   "/required",
                               steps_text(facts.planned[line], 0), "channels");
    return count_input(facts.planned[line]);
}

double share_of(const PointLine& points) { return points.on_together.fraction(); }

BasisInput amps_input(const BoxFacts& facts, std::size_t line) {
    const DemandLine& demand = facts.demand.lines[line];
    const std::string amps = number_text(demand.points->amps);
    if (demand.points->of_assembly) return from_rule("signals/" + demand.signal->key, amps, "A");
    return from_request(line_path(*facts.box, *demand.points) + "/amps", amps, "A");
}

/// The load of the field devices of so many channels: leaves through the terminals.
Consumer field_device(const BoxFacts& facts, std::size_t line, int channels) {
    const PointLine& points = *facts.demand.lines[line].points;
    Consumer consumer;
    consumer.factors = {channels == facts.planned[line] ? planned_input(facts, line)
                                                        : count_input(channels),
                        amps_input(facts, line)};
    consumer.all_on_a = channels * points.amps;
    consumer.together_a = consumer.all_on_a * share_of(points);
    consumer.field_a = consumer.all_on_a;
    consumer.heat_is_current = false;
    consumer.point = line;
    return consumer;
}

/// Channels of the line whose field device or loop the box itself feeds: none of those that go
/// through an interface which feeds the loop.
int fed_channels(const BoxFacts& facts, std::size_t line) {
    const Interface* row = facts.demand.lines[line].interface;
    return row && row->feeds_loop ? facts.wiring[line].direct.channels : facts.planned[line];
}

/// The current of a fed loop leaves to the field but for what the input of the module turns into
/// heat: loop current squared times its resistance, in every channel that ends on such an input.
void add_loop(std::vector<Consumer>& out, const BoxFacts& facts, std::size_t line,
              const RuleBook& rules) {
    const DemandLine& demand = facts.demand.lines[line];
    const PointLine& points = *demand.points;
    const Rule& current = rules.heat.loop_current;
    const Rule& resistance = rules.heat.loop_resistance;
    Consumer consumer;
    const int fed = fed_channels(facts, line);
    if (points.fed_from_box && demand.signal->power == "loop_in" && fed > 0)
        consumer = field_device(facts, line, fed);
    consumer.heat_is_current = false;
    if (demand.module->power == "loop_in") {
        consumer.inside_w =
            facts.planned[line] * current.number() * current.number() * resistance.number();
        consumer.heat_factors = {planned_input(facts, line),
                                 from_rule(current.id, current.text(), "A"),
                                 from_rule(current.id, current.text(), "A"),
                                 from_rule(resistance.id, resistance.text(), "ohm")};
    }
    const double inside_a = consumer.inside_w / rules.supply.volts.number();
    consumer.field_a = std::max(0.0, consumer.all_on_a - inside_a);
    out.push_back(std::move(consumer));
}

/// The worst case: all that an analogue output gives stays inside.
void add_loop_out(std::vector<Consumer>& out, const BoxFacts& facts, std::size_t line,
                  const RuleBook& rules) {
    const DemandLine& demand = facts.demand.lines[line];
    Consumer consumer = field_device(facts, line, facts.planned[line]);
    if (demand.signal->power != "loop_out") { // an interface turns it into the field's signal
        const Rule& current = rules.heat.loop_current;
        consumer.factors = {planned_input(facts, line), from_rule(current.id, current.text(), "A")};
        consumer.all_on_a = consumer.together_a = facts.planned[line] * current.number();
        consumer.point = Consumer::none;
    }
    consumer.heat_is_current = true;
    consumer.field_a = 0;
    consumer.inside_w = consumer.all_on_a * rules.supply.volts.number();
    out.push_back(std::move(consumer));
}

/// Heat of closed outputs: of the module where they are wired direct, of the interface where it
/// drops a voltage of its own.
void add_drop(std::vector<Consumer>& out, const BoxFacts& facts, std::size_t line, const Rule& drop,
              int channels) {
    const PointLine& points = *facts.demand.lines[line].points;
    if (channels == 0 || drop.number() == 0) return;
    Consumer heat;
    heat.heat_is_current = false;
    heat.inside_w = drop.number() * points.amps * channels;
    heat.heat_factors = {from_rule(drop.id, drop.text(), "V"), count_input(channels),
                         amps_input(facts, line)};
    out.push_back(std::move(heat));
}

void add_switched(std::vector<Consumer>& out, const BoxFacts& facts, std::size_t line,
                  const RuleBook& rules) {
    const DemandLine& demand = facts.demand.lines[line];
    const LineWiring& wiring = facts.wiring[line];
    if (demand.points->fed_from_box) out.push_back(field_device(facts, line, facts.planned[line]));
    const bool through = demand.interface && !demand.interface->keeps_signal();
    if (rules.heat.output_drop_v)
        add_drop(out, facts, line, *rules.heat.output_drop_v,
                 wiring.direct.channels + (through ? 0 : wiring.via.channels));
    if (through) add_drop(out, facts, line, demand.interface->drop_v, wiring.via.channels);
}

void add_line(std::vector<Consumer>& out, const BoxFacts& facts, std::size_t line,
              const RuleBook& rules) {
    const DemandLine& demand = facts.demand.lines[line];
    const auto either = [&](const char* power) {
        return demand.signal->power == power || demand.module->power == power;
    };
    if (either("loop_in")) {
        add_loop(out, facts, line, rules);
    } else if (either("loop_out")) {
        add_loop_out(out, facts, line, rules);
    } else if (demand.signal->power == "switched") {
        add_switched(out, facts, line, rules);
    } else if (demand.points->fed_from_box && demand.points->amps > 0) {
        out.push_back(field_device(facts, line, facts.planned[line]));
    }
}

/// Interfaces draw their own current; what is not their heat leaves to the field or the module.
Consumer interface_pieces(const BoxFacts& facts, const InterfaceFact& fact, double volts) {
    const DemandLine& demand = facts.demand.lines[fact.line];
    const Interface& row = *demand.interface;
    const double own = interface_amps(*fact.part, row);
    const double watts = interface_watts(*fact.part, row, volts);
    Consumer consumer;
    const bool known = fact.part->own_a.has_value();
    if (own > 0 && known)
        consumer.factors = {count_input(fact.count),
                            from_part(fact.part->key + "/own_a", number_text(own), "A")};
    else if (own > 0)
        consumer.factors = {count_input(fact.count),
                            from_rule(row.current_ma.id, row.current_ma.text(), "mA"),
                            from_figure("", "0.001", "")};
    consumer.all_on_a = fact.count * own;
    consumer.together_a = consumer.all_on_a * share_of(*demand.points);
    consumer.inside_w = fact.count * watts;
    consumer.heat_is_current = !fact.part->own_w && known;
    if (!consumer.heat_is_current && watts > 0)
        consumer.heat_factors = {count_input(fact.count),
                                 fact.part->own_w
                                     ? from_part(fact.part->key + "/own_w", number_text(watts), "W")
                                     : from_rule(row.heat_w.id, row.heat_w.text(), "W")};
    consumer.field_a = std::max(0.0, consumer.all_on_a - consumer.inside_w / volts);
    consumer.point = fact.line;
    return consumer;
}

BasisInput own_amps_input(const BoxFacts& facts, const EquipmentFact& fact) {
    const std::string amps = number_text(fact.amps_24v);
    if (fact.asked->amps_24v)
        return from_request(equipment_path(facts, fact, "amps_24v"), amps, "A");
    return fact.part ? from_part(fact.part->key + "/own_a", amps, "A")
                     : from_figure("", amps, "A"); // of a row of the assembly table
}

/// Current of equipment at another voltage; its heat is stated as watts.
Consumer equipment_of_group(const BoxFacts& facts, const EquipmentFact& fact) {
    Consumer consumer;
    const int pieces = fact.asked->quantity;
    const double amps = fact.asked->amps.value_or(0);
    consumer.factors = {count_input(pieces),
                        from_request(equipment_path(facts, fact, "amps"), number_text(amps), "A")};
    consumer.all_on_a = consumer.together_a = consumer.field_a = pieces * amps;
    consumer.heat_is_current = false;
    consumer.group = fact.group;
    return consumer;
}

Consumer equipment(const BoxFacts& facts, const EquipmentFact& fact) {
    Consumer consumer;
    const int pieces = fact.asked->quantity;
    consumer.factors = {count_input(pieces), own_amps_input(facts, fact)};
    if (fact.amps_24v == 0) consumer.factors.clear();
    consumer.all_on_a = consumer.together_a = pieces * fact.amps_24v;
    consumer.field_a = fact.where == "outside" ? consumer.all_on_a : 0;
    consumer.inside_w = pieces * fact.inside_w;
    consumer.heat_is_current = false;
    if (consumer.inside_w > 0) {
        consumer.heat_factors = {count_input(pieces)};
        if (fact.asked->watts)
            consumer.heat_factors.push_back(from_request(equipment_path(facts, fact, "watts"),
                                                         number_text(fact.inside_w), "W"));
        else if (fact.part && fact.part->own_w)
            consumer.heat_factors.push_back(
                from_part(fact.part->key + "/own_w", number_text(fact.inside_w), "W"));
        else if (fact.of_assembly && !fact.part)
            consumer.heat_factors.push_back(from_figure("", number_text(fact.inside_w), "W"));
        else
            consumer.heat_is_current = true;
    }
    return consumer;
}

Consumer own_current(const Part& part, int pieces, double volts) {
    Consumer consumer;
    const double own = part.own_a.value_or(0);
    consumer.factors = {count_input(pieces), from_part(part.key + "/own_a", number_text(own), "A")};
    if (pieces == 1) consumer.factors.erase(consumer.factors.begin());
    consumer.all_on_a = consumer.together_a = pieces * own;
    if (part.stage == "cooling_unit") { // its heat is part of what it moves outside
        consumer.heat_is_current = false;
        consumer.field_a = consumer.all_on_a;
    } else {
        consumer.inside_w = consumer.all_on_a * volts;
    }
    return consumer;
}

/// Channels carried, by module and channel group current: one consumer per part and line.
void add_inputs(std::vector<Consumer>& out, const BoxFacts& facts, const Arrangement& arrangement,
                double volts) {
    for (std::size_t mix = 0; mix < facts.demand.mix.size(); ++mix) {
        const MixLine& line = facts.demand.mix[mix];
        const DemandLine& demand = facts.demand.lines[line.lines.front()];
        if (demand.module->power != "input") continue;
        std::map<std::string, std::pair<int, double>> by_part;
        for (const ModuleUse& use : arrangement.member.uses) {
            if (use.carried[mix] == 0) continue;
            double own = 0;
            for (const ChannelGroup& group : use.part->groups)
                if (accepts(group, line) > 0)
                    own = std::max(own, input_current(group, *demand.module));
            auto& entry = by_part[use.part->key];
            entry.first += use.carried[mix];
            entry.second = own;
        }
        for (const auto& [part, entry] : by_part) {
            if (entry.second == 0) continue;
            Consumer consumer;
            consumer.factors = {count_input(entry.first),
                                from_part(part + "/channel_a", number_text(entry.second), "A")};
            consumer.all_on_a = consumer.together_a = entry.first * entry.second;
            consumer.inside_w = consumer.all_on_a * volts;
            out.push_back(std::move(consumer));
        }
    }
}

} // namespace

BoxLoad& BoxLoad::operator+=(const Consumer& consumer) {
    inside_w += consumer.inside_w;
    if (consumer.group > 0) return *this;
    all_on_a += consumer.all_on_a;
    together_a += consumer.together_a;
    field_a += consumer.field_a;
    return *this;
}

double input_current(const ChannelGroup& group, const Signal& signal) {
    return signal.power == "input" ? group.channel_a : 0;
}

std::vector<Consumer> fixed_consumers(const BoxFacts& facts, const RuleBook& rules) {
    std::vector<Consumer> out;
    const double volts = rules.supply.volts.number();
    for (std::size_t i = 0; i < facts.demand.lines.size(); ++i)
        if (facts.planned[i] > 0) add_line(out, facts, i, rules);
    for (const InterfaceFact& fact : facts.interfaces)
        if (fact.count > 0) out.push_back(interface_pieces(facts, fact, volts));
    for (Consumer& consumer : out)
        if (consumer.point != Consumer::none) consumer.group = group_of_line(facts, consumer.point);
    for (const EquipmentFact& fact : facts.equipment)
        if (fact.asked->quantity > 0) out.push_back(equipment(facts, fact));
    for (const EquipmentFact& fact : facts.equipment)
        if (fact.group > 0) out.push_back(equipment_of_group(facts, fact));
    return out;
}

std::size_t group_of_line(const BoxFacts& facts, std::size_t line) {
    if (facts.demand.lines[line].signal->power != "switched") return 0;
    return facts.groups.empty() || facts.groups.front().word != "outputs" ? 0 : 1;
}

std::vector<Consumer> chosen_consumers(const BoxFacts& facts, const Arrangement& arrangement,
                                       const std::vector<std::pair<const Part*, int>>& others,
                                       const RuleBook& rules) {
    std::vector<Consumer> out;
    const double volts = rules.supply.volts.number();
    std::vector<std::pair<const Part*, int>> parts;
    for (const Station& station : arrangement.stations)
        for (const Place& place : station.places) {
            auto found = std::find_if(parts.begin(), parts.end(),
                                      [&](const auto& entry) { return entry.first == place.part; });
            if (found == parts.end())
                parts.emplace_back(place.part, 1);
            else
                ++found->second;
        }
    parts.insert(parts.end(), others.begin(), others.end());
    for (const auto& [part, pieces] : parts)
        if (part->own_a.value_or(0) > 0) out.push_back(own_current(*part, pieces, volts));
    add_inputs(out, facts, arrangement, volts);
    return out;
}

BoxLoad sum_of(const std::vector<Consumer>& consumers) {
    BoxLoad load;
    for (const Consumer& consumer : consumers) load += consumer;
    return load;
}

BoxLoad sum_of_group(const std::vector<Consumer>& consumers, std::size_t group) {
    BoxLoad load;
    for (Consumer consumer : consumers) {
        if (consumer.group != group) continue;
        consumer.group = consumer.inside_w = 0;
        load += consumer;
    }
    return load;
}

} // namespace backplate
