#include "pricing/panel/load.h"

#include <algorithm>
#include <map>

#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

std::string points_path(const BoxFacts& facts, std::size_t line, const char* key) {
    return "/boxes/" + steps_text(static_cast<std::int64_t>(facts.box->index), 0) + "/points/" +
           steps_text(static_cast<std::int64_t>(facts.demand.lines[line].points->index), 0) + "/" +
           key;
}

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

/// The load of a field device: leaves through the terminals.
Consumer field_device(const BoxFacts& facts, std::size_t line) {
    const PointLine& points = *facts.demand.lines[line].points;
    Consumer consumer;
    consumer.factors = {planned_input(facts, line), from_request(points_path(facts, line, "amps"),
                                                                 number_text(points.amps), "A")};
    consumer.all_on_a = facts.planned[line] * points.amps;
    consumer.together_a = consumer.all_on_a * share_of(points);
    consumer.field_a = consumer.all_on_a;
    consumer.heat_is_current = false;
    consumer.point = line;
    return consumer;
}

void add_loop(std::vector<Consumer>& out, const BoxFacts& facts, std::size_t line,
              const RuleBook& rules) {
    const PointLine& points = *facts.demand.lines[line].points;
    const Rule& current = rules.heat.loop_current;
    const Rule& resistance = rules.heat.loop_resistance;
    Consumer consumer;
    if (points.fed_from_box) consumer = field_device(facts, line);
    consumer.heat_is_current = false;
    const double watts =
        facts.planned[line] * current.number() * current.number() * resistance.number();
    consumer.inside_w = watts;
    const double inside_a = watts / rules.supply.volts.number();
    consumer.field_a = std::max(0.0, consumer.all_on_a - inside_a);
    consumer.heat_factors = {planned_input(facts, line), from_rule(current.id, current.text(), "A"),
                             from_rule(current.id, current.text(), "A"),
                             from_rule(resistance.id, resistance.text(), "ohm")};
    out.push_back(std::move(consumer));
}

void add_switched(std::vector<Consumer>& out, const BoxFacts& facts, std::size_t line,
                  const RuleBook& rules) {
    const PointLine& points = *facts.demand.lines[line].points;
    const int direct = facts.wiring[line].direct;
    if (points.fed_from_box) out.push_back(field_device(facts, line));
    if (!rules.heat.output_drop_v || direct == 0) return;
    const Rule& drop = *rules.heat.output_drop_v;
    Consumer heat;
    heat.heat_is_current = false;
    heat.inside_w = drop.number() * points.amps * direct;
    heat.heat_factors = {
        from_rule(drop.id, drop.text(), "V"), count_input(direct),
        from_request(points_path(facts, line, "amps"), number_text(points.amps), "A")};
    out.push_back(std::move(heat));
}

void add_line(std::vector<Consumer>& out, const BoxFacts& facts, std::size_t line,
              const RuleBook& rules) {
    const DemandLine& demand = facts.demand.lines[line];
    const std::string& power = demand.signal->power;
    if (power == "loop_in") {
        add_loop(out, facts, line, rules);
    } else if (power == "loop_out") {
        Consumer consumer = field_device(facts, line); // the worst case: all of it stays inside
        consumer.heat_is_current = true;
        consumer.field_a = 0;
        consumer.inside_w = consumer.all_on_a * rules.supply.volts.number();
        out.push_back(std::move(consumer));
    } else if (power == "switched") {
        add_switched(out, facts, line, rules);
    } else if (demand.points->fed_from_box && demand.points->amps > 0) {
        out.push_back(field_device(facts, line));
    }
}

Consumer coils(const BoxFacts& facts, const InterfaceFact& fact, double volts) {
    const PointLine& points = *facts.demand.lines[fact.line].points;
    Consumer consumer;
    const double own = fact.part->own_a.value_or(0);
    consumer.factors = {count_input(fact.count),
                        from_part(fact.part->key + "/own_a", number_text(own), "A")};
    consumer.all_on_a = fact.count * own;
    consumer.together_a = consumer.all_on_a * share_of(points);
    consumer.inside_w = consumer.all_on_a * volts;
    consumer.point = fact.line;
    return consumer;
}

Consumer equipment(const BoxFacts& facts, const EquipmentFact& fact) {
    Consumer consumer;
    const int pieces = fact.asked->quantity;
    const bool asked_amps = fact.asked->amps_24v.has_value();
    consumer.factors = {count_input(pieces),
                        asked_amps ? from_request(equipment_path(facts, fact, "amps_24v"),
                                                  number_text(fact.amps_24v), "A")
                                   : from_part((fact.part ? fact.part->key : "") + "/own_a",
                                               number_text(fact.amps_24v), "A")};
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
    consumer.inside_w = consumer.all_on_a * volts;
    return consumer;
}

/// Channels carried, by module and channel group current: one consumer per part and line.
void add_inputs(std::vector<Consumer>& out, const BoxFacts& facts, const Arrangement& arrangement,
                double volts) {
    for (std::size_t mix = 0; mix < facts.demand.mix.size(); ++mix) {
        const MixLine& line = facts.demand.mix[mix];
        const DemandLine& demand = facts.demand.lines[line.lines.front()];
        if (demand.signal->power != "input" && !demand.interface) continue;
        std::map<std::string, std::pair<int, double>> by_part;
        for (const ModuleUse& use : arrangement.member.uses) {
            if (use.carried[mix] == 0) continue;
            double own = 0;
            for (const ChannelGroup& group : use.part->groups)
                if (accepts(group, line) > 0)
                    own = std::max(own, input_current(group, *demand.signal));
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
    all_on_a += consumer.all_on_a;
    together_a += consumer.together_a;
    inside_w += consumer.inside_w;
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
        if (fact.count > 0) out.push_back(coils(facts, fact, volts));
    for (const EquipmentFact& fact : facts.equipment)
        if (fact.asked->quantity > 0) out.push_back(equipment(facts, fact));
    return out;
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

} // namespace backplate
