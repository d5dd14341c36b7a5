#include "pricing/mix/demand.h"

#include <algorithm>
#include <numeric>

namespace backplate {
namespace {

const Interface* interface_for(const RuleBook& rules, const PointLine& points) {
    if (points.via.empty() || points.via == "direct") return nullptr;
    for (const Interface& row : rules.interfaces)
        if (row.via == points.via && row.signal == points.signal) return &row;
    return nullptr;
}

SignalDemand& signal_entry(Demand& demand, const std::string& signal) {
    for (SignalDemand& entry : demand.signals)
        if (entry.signal == signal) return entry;
    demand.signals.push_back({signal, 0, 0});
    return demand.signals.back();
}

/// Gives the channels beyond `used` to the lines in proportion, largest remainder first.
void share_out(Demand& demand, const SignalDemand& signal) {
    std::vector<DemandLine*> lines;
    for (DemandLine& line : demand.lines)
        if (line.points->signal == signal.signal) lines.push_back(&line);
    const int extra = signal.required - signal.used;
    int given = 0;
    std::vector<std::pair<long long, std::size_t>> remainders;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const long long product = static_cast<long long>(extra) * lines[i]->used;
        const int part = signal.used ? static_cast<int>(product / signal.used) : 0;
        lines[i]->required = lines[i]->used + part;
        given += part;
        remainders.emplace_back(signal.used ? -(product % signal.used) : 0, i);
    }
    std::sort(remainders.begin(), remainders.end());
    for (int i = 0; given < extra; ++i, ++given) ++lines[remainders[i].second]->required;
}

void add_to_mix(Demand& demand, std::size_t index) {
    const DemandLine& line = demand.lines[index];
    if (line.required == 0) return;
    const bool switched = line.signal->power == "switched" || line.interface != nullptr;
    for (MixLine& mix : demand.mix) {
        if (mix.signal != line.module_signal || mix.switched != switched ||
            mix.amps != line.module_amps || mix.isolated != line.points->isolated ||
            mix.hart != line.points->hart)
            continue;
        mix.channels += line.required;
        mix.lines.push_back(index);
        return;
    }
    demand.mix.push_back({line.module_signal,
                          line.module_amps,
                          line.points->isolated,
                          line.points->hart,
                          switched,
                          line.required,
                          {index}});
}

} // namespace

int required_channels(int used, SpareBasis basis, Percent percent, int minimum) {
    if (used == 0) return 0;
    const std::int64_t hundred = Percent::whole(100).steps();
    const std::int64_t by_percent =
        basis == SpareBasis::of_used
            ? multiply_divide(used, hundred + percent.steps(), hundred, Rounding::up)
            : multiply_divide(used, hundred, hundred - percent.steps(), Rounding::up);
    return static_cast<int>(std::max<std::int64_t>(by_percent, used + minimum));
}

Demand demand_of(const Box& box, const SpareRule& spare, const RuleBook& rules,
                 double interface_amps) {
    Demand demand;
    for (const PointLine& points : box.points) {
        DemandLine line;
        line.points = &points;
        line.signal = rules.find_signal(points.signal);
        line.interface = interface_for(rules, points);
        line.module_signal = points.signal;
        line.module_amps = points.amps;
        if (line.interface) {
            if (line.interface->module_signal != "same")
                line.module_signal = line.interface->module_signal;
            line.module_amps = interface_amps;
        }
        line.used = points.count;
        demand.lines.push_back(line);
        signal_entry(demand, points.signal).used += points.count;
    }
    for (SignalDemand& signal : demand.signals) {
        signal.required = signal.used;
        if (spare.kind != SpareKind::slot)
            signal.required =
                required_channels(signal.used, spare.basis, spare.percent.of(signal.signal),
                                  spare.minimum_channels.of(signal.signal));
        share_out(demand, signal);
    }
    for (std::size_t i = 0; i < demand.lines.size(); ++i) add_to_mix(demand, i);
    return demand;
}

namespace {

std::vector<BasisInput> count_inputs(const Demand& demand, const Box& box,
                                     const std::string& signal) {
    std::vector<BasisInput> inputs;
    for (const DemandLine& line : demand.lines)
        if (line.points->signal == signal)
            inputs.push_back(from_request("/boxes/" + steps_text(box.index, 0) + "/points/" +
                                              steps_text(line.points->index, 0) + "/count",
                                          steps_text(line.used, 0), "points"));
    return inputs;
}

std::string sum_text(std::size_t count) {
    std::string text = "a";
    for (std::size_t i = 1; i < count; ++i) text += " + " + input_letter(i);
    return count > 1 ? "(" + text + ")" : text;
}

} // namespace

void record_required(const Demand& demand, const Box& box, const SpareRule& spare,
                     std::size_t first_point, Recorder& recorder) {
    if (spare.kind == SpareKind::slot) return;
    const bool of_used = spare.basis == SpareBasis::of_used;
    for (std::size_t i = 0; i < demand.signals.size(); ++i) {
        const SignalDemand& signal = demand.signals[i];
        if (signal.used == 0) continue;
        BasisEntry entry;
        entry.figure = "/points/" + steps_text(first_point + i, 0) + "/required";
        entry.value = steps_text(signal.required, 0);
        entry.unit = "channels";
        entry.inputs = count_inputs(demand, box, signal.signal);
        const std::string sum = sum_text(entry.inputs.size());
        const bool own = spare.percent.exceptions.count(signal.signal) > 0;
        const std::string p = input_letter(entry.inputs.size());
        entry.inputs.push_back(
            from_request("/spare/percent/" + (own ? signal.signal : std::string("default")),
                         spare.percent.of(signal.signal).text(), "%"));
        entry.formula = of_used ? "ceil(" + sum + " × (100 + " + p + ") ÷ 100)"
                                : "ceil(100 × " + sum + " ÷ (100 − " + p + "))";
        const int minimum = spare.minimum_channels.of(signal.signal);
        if (minimum > 0) {
            const bool own_minimum = spare.minimum_channels.exceptions.count(signal.signal) > 0;
            entry.formula = "max(" + entry.formula + ", " + sum + " + " +
                            input_letter(entry.inputs.size()) + ")";
            entry.inputs.push_back(from_request(
                "/spare/minimum_channels/" + (own_minimum ? signal.signal : std::string("default")),
                steps_text(minimum, 0), "channels"));
        }
        entry.rule = of_used ? "spare/of_used" : "spare/of_installed";
        entry.source = "trade-practice 3.2: whole numbers, rounded up per signal";
        recorder.add(std::move(entry));
    }
}

} // namespace backplate
