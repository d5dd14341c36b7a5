#include "pricing/mix/demand.h"

#include <algorithm>
#include <numeric>

namespace backplate {
namespace {

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
    const bool switched = line.module && line.module->power == "switched";
    const bool isolated = line.points->isolated && !(line.interface && line.interface->isolates);
    for (MixLine& mix : demand.mix) {
        if (mix.signal != line.module_signal || mix.switched != switched ||
            mix.amps != line.module_amps || mix.isolated != isolated ||
            mix.hart != line.points->hart)
            continue;
        mix.channels += line.required;
        mix.lines.push_back(index);
        return;
    }
    demand.mix.push_back({line.module_signal,
                          line.module_amps,
                          isolated,
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

namespace {

void add_spare(SignalDemand& signal, const SpareRule& spare,
               const ModuleChannels& module_channels) {
    const auto module = module_channels.find(signal.signal);
    const int modules = spare.minimum_modules.of(signal.signal);
    if (modules > 0 && module != module_channels.end()) signal.module_channels = module->second;
    signal.minimum =
        std::max(spare.minimum_channels.of(signal.signal), modules * signal.module_channels);
    signal.required = required_channels(signal.used, spare.basis, spare.percent.of(signal.signal),
                                        signal.minimum);
}

int placed_of(const PlacedSpare& placed, const std::string& signal) {
    const auto found = placed->find(signal);
    return found == placed->end() ? 0 : found->second;
}

/// A part between channel and field takes the field current over: the module feeds its input.
DemandLine line_of(const PointLine& points, const RuleBook& rules, double interface_amps) {
    DemandLine line;
    line.points = &points;
    line.signal = rules.find_signal(points.signal);
    line.interface = rules.find_interface(points.via, points.signal);
    line.module_signal = points.signal;
    line.module_amps = points.amps;
    line.used = points.count;
    const bool takes_over = line.interface && !line.interface->keeps_signal();
    if (takes_over) line.module_signal = line.interface->module_signal;
    line.module = rules.find_signal(line.module_signal);
    if (takes_over && line.module && line.module->power == "switched")
        line.module_amps = interface_amps;
    return line;
}

} // namespace

Demand demand_of(const Box& box, const SpareRule& spare, const RuleBook& rules,
                 const std::vector<double>& interface_amps, const ModuleChannels& module_channels,
                 const PlacedSpare& placed) {
    Demand demand;
    for (const PointLine& points : box.points) {
        const std::size_t at = demand.lines.size();
        demand.lines.push_back(
            line_of(points, rules, at < interface_amps.size() ? interface_amps[at] : 0));
        signal_entry(demand, points.signal).used += points.count;
    }
    for (SignalDemand& signal : demand.signals) {
        signal.required = signal.used;
        if (placed)
            signal.required += placed_of(placed, signal.signal);
        else if (spare.kind != SpareKind::slot)
            add_spare(signal, spare, module_channels);
        share_out(demand, signal);
    }
    for (std::size_t i = 0; i < demand.lines.size(); ++i) add_to_mix(demand, i);
    return demand;
}

std::map<std::string, int> spare_of_job(const BidRequest& request) {
    std::map<std::string, int> used, spare;
    for (const Box& box : request.boxes)
        for (const PointLine& points : box.points)
            used[points.signal] += points.count * box.quantity;
    const SpareRule& rule = request.spare;
    for (const auto& [signal, points] : used)
        spare[signal] = required_channels(points, rule.basis, rule.percent.of(signal),
                                          rule.minimum_channels.of(signal)) -
                        points;
    return spare;
}

std::string line_path(const Box& box, const PointLine& points) {
    const std::string path = "/boxes/" + steps_text(static_cast<std::int64_t>(box.index), 0);
    if (points.of_assembly)
        return path + "/assemblies/" +
               steps_text(static_cast<std::int64_t>(points.of_assembly->assembly), 0);
    return path + "/points/" + steps_text(static_cast<std::int64_t>(points.index), 0);
}

namespace {

/// Points in use as a sum over the lines of the signal; those of an assembly are its quantity times
/// the points of one.
std::string used_points(const Demand& demand, const Box& box, const std::string& signal,
                        std::vector<BasisInput>& inputs) {
    std::string text;
    int terms = 0;
    for (const DemandLine& line : demand.lines) {
        if (line.points->signal != signal) continue;
        text += (terms++ ? " + " : "") + input_letter(inputs.size());
        const std::string path = line_path(box, *line.points);
        if (const auto& origin = line.points->of_assembly) {
            inputs.push_back(
                from_request(path + "/quantity", steps_text(origin->quantity, 0), "pieces"));
            text += " × " + input_letter(inputs.size());
            inputs.push_back(from_rule(origin->rule, origin->per_piece, "points"));
        } else {
            inputs.push_back(from_request(path + "/count", steps_text(line.used, 0), "points"));
        }
    }
    return inputs.size() > 1 ? "(" + text + ")" : text;
}

/// The greatest of what percent, channels and modules ask for.
void add_minimum(BasisEntry& entry, const std::string& sum, const SignalDemand& signal,
                 const SpareRule& spare) {
    const auto term = [&](const BySignal<int>& least, const char* key, const char* unit) {
        const bool own = least.exceptions.count(signal.signal) > 0;
        entry.formula += ", " + sum + " + " + input_letter(entry.inputs.size());
        entry.inputs.push_back(from_request(key + (own ? signal.signal : std::string("default")),
                                            steps_text(least.of(signal.signal), 0), unit));
    };
    if (spare.minimum_channels.of(signal.signal) > 0)
        term(spare.minimum_channels, "/spare/minimum_channels/", "channels");
    if (signal.module_channels > 0) {
        term(spare.minimum_modules, "/spare/minimum_modules/", "modules");
        entry.formula += " × " + steps_text(signal.module_channels, 0);
    }
    entry.formula = "max(" + entry.formula + ")";
}

/// The points of the box and its share of the spare over the job.
void record_placed(const Demand& demand, const Box& box, const BidRequest& request,
                   std::size_t first_point, const std::map<std::string, int>& placed,
                   Recorder& recorder) {
    const auto of_job = spare_of_job(request);
    for (std::size_t i = 0; i < demand.signals.size(); ++i) {
        const SignalDemand& signal = demand.signals[i];
        if (signal.used == 0) continue;
        const auto share = placed.find(signal.signal);
        BasisEntry entry;
        entry.figure = "/points/" + steps_text(first_point + i, 0) + "/required";
        entry.value = steps_text(signal.required, 0);
        entry.unit = "channels";
        entry.formula = used_points(demand, box, signal.signal, entry.inputs) + " + " +
                        steps_text(share == placed.end() ? 0 : share->second, 0);
        entry.rule =
            request.spare.basis == SpareBasis::of_used ? "spare/of_used" : "spare/of_installed";
        entry.source = "trade-practice 3.2: rounded once over the job, " +
                       steps_text(of_job.at(signal.signal), 0) +
                       " channels of spare in all, placed where they cost least";
        recorder.add(std::move(entry));
    }
}

} // namespace

void record_required(const Demand& demand, const Box& box, const BidRequest& request,
                     std::size_t first_point, const PlacedSpare& placed, Recorder& recorder) {
    const SpareRule& spare = request.spare;
    if (placed) return record_placed(demand, box, request, first_point, *placed, recorder);
    if (spare.kind == SpareKind::slot) return;
    const bool of_used = spare.basis == SpareBasis::of_used;
    for (std::size_t i = 0; i < demand.signals.size(); ++i) {
        const SignalDemand& signal = demand.signals[i];
        if (signal.used == 0) continue;
        BasisEntry entry;
        entry.figure = "/points/" + steps_text(first_point + i, 0) + "/required";
        entry.value = steps_text(signal.required, 0);
        entry.unit = "channels";
        const std::string sum = used_points(demand, box, signal.signal, entry.inputs);
        const bool own = spare.percent.exceptions.count(signal.signal) > 0;
        const std::string p = input_letter(entry.inputs.size());
        entry.inputs.push_back(
            from_request("/spare/percent/" + (own ? signal.signal : std::string("default")),
                         spare.percent.of(signal.signal).text(), "%"));
        entry.formula = of_used ? "ceil(" + sum + " × (100 + " + p + ") ÷ 100)"
                                : "ceil(100 × " + sum + " ÷ (100 − " + p + "))";
        if (signal.minimum > 0) add_minimum(entry, sum, signal, spare);
        entry.rule = of_used ? "spare/of_used" : "spare/of_installed";
        entry.source = "trade-practice 3.2: whole numbers, rounded up per signal";
        recorder.add(std::move(entry));
    }
}

} // namespace backplate
