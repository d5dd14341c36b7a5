#include <algorithm>

#include "pricing/mix/accepts.h"
#include "pricing/panel/choose_panel.h"

namespace backplate {
namespace {

constexpr int most_cases = 64; ///< beyond: the best so far, not proven

int channels_for(const Part& part, const std::string& signal) {
    int channels = 0;
    for (const ChannelGroup& group : part.groups)
        if (std::find(group.signals.begin(), group.signals.end(), signal) != group.signals.end())
            channels += group.channels;
    return channels;
}

/// Signal that the module behind the line serves.
std::string module_signal(const PointLine& points, const RuleBook& rules) {
    const Interface* row = rules.find_interface(points.via, points.signal);
    return row && !row->keeps_signal() ? row->module_signal : points.signal;
}

bool allowed(const Part& part, const Choices& choices) {
    return choices.platforms.empty() ||
           std::find(choices.platforms.begin(), choices.platforms.end(), part.platform) !=
               choices.platforms.end();
}

/// Every signal that spare modules are asked for, with the channels of the smallest module.
SpareModules smallest_modules(const BidRequest& request, const Box& box, const PriceBook& book,
                              const RuleBook& rules) {
    SpareModules result;
    for (const PointLine& points : box.points) {
        if (points.count == 0 || request.spare.minimum_modules.of(points.signal) == 0) continue;
        for (const Part* part : book.of_kind("module")) {
            if (!may_choose(*part, box, request) || !allowed(*part, box.choices)) continue;
            const int channels = channels_for(*part, module_signal(points, rules));
            int& least = result.counted[points.signal];
            if (channels > 0 && (least == 0 || channels < least)) least = channels;
        }
    }
    return result;
}

bool serves(const MixLine& line, const Demand& demand, const std::string& signal) {
    return std::any_of(line.lines.begin(), line.lines.end(), [&](std::size_t index) {
        return demand.lines[index].points->signal == signal;
    });
}

/// Channels of the kind of module that carries most of the signal; 0: no module carries any.
int leading_channels(const PanelDesign& design, const Demand& demand, const std::string& signal) {
    std::map<const Part*, int> carried;
    std::map<const Part*, int> channels;
    for (const ModuleUse& use : design.arrangement->member.uses)
        for (std::size_t mix = 0; mix < demand.mix.size(); ++mix) {
            if (use.part == design.leader || use.carried[mix] == 0) continue;
            if (!serves(demand.mix[mix], demand, signal)) continue;
            carried[use.part] += use.carried[mix];
            channels[use.part] = channels_for(*use.part, demand.mix[mix].signal);
        }
    int most = 0, leading = 0;
    for (const auto& [part, count] : carried)
        if (count > most || (count == most && channels[part] < leading)) {
            most = count;
            leading = channels[part];
        }
    return leading;
}

/// The first signal whose leading modules are larger than counted; null: the rule is kept.
const SignalDemand* undercounted(const PanelChoice& choice, int& leading) {
    const Demand& demand = choice.search->facts.demand;
    for (const SignalDemand& signal : demand.signals) {
        if (signal.module_channels == 0) continue;
        leading = leading_channels(*choice.design, demand, signal.signal);
        if (leading > signal.module_channels) return &signal;
    }
    return nullptr;
}

std::int64_t cost_of(const PanelChoice& choice) { return choice.design->direct_cost; }

PanelChoice choose_from(const BidRequest& request, const Box& box, const ChosenParts& chosen,
                        const RuleBook& rules, const JobShare& share, Work& work) {
    std::vector<SpareModules> open{{}};
    if (request.spare.kind != SpareKind::slot)
        open.front() = smallest_modules(request, box, chosen.book, rules);
    PanelChoice best;
    int cases = 0;
    while (!open.empty()) {
        const SpareModules counted = open.back();
        open.pop_back();
        PanelChoice choice = cheapest_panel(request, box, chosen, rules, counted, share, work);
        if (!choice.design) {
            if (++cases == 1) return choice;
            continue;
        }
        if (best.design && cost_of(choice) >= cost_of(best)) continue;
        int leading = 0;
        const SignalDemand* signal = undercounted(choice, leading);
        if (!signal) {
            best = std::move(choice);
        } else {
            SpareModules larger = counted, smaller = counted;
            larger.counted[signal->signal] = leading;
            smaller.most[signal->signal] = signal->module_channels;
            open.push_back(larger);
            open.push_back(smaller);
        }
        if (++cases >= most_cases && best.design) {
            best.proven = best.proven && open.empty();
            break;
        }
    }
    return best;
}

} // namespace

PanelChoice choose_panel(const BidRequest& request, const Box& box, const PriceBook& book,
                         const RuleBook& rules, Work& work, const JobShare& share) {
    PanelChoice choice = choose_from(request, box, chosen_parts(book, box, request, rules, true),
                                     rules, share, work);
    if (!choice.design && !box.choices.prefer_makers.empty()) {
        choice = choose_from(request, box, chosen_parts(book, box, request, rules, false), rules,
                             share, work);
        choice.preference_dropped = choice.design.has_value();
    }
    if (!choice.design && box.choices.in_stock_only)
        choice.limits.push_back("only parts in stock may be taken (choices, in_stock_only)");
    return choice;
}

} // namespace backplate
