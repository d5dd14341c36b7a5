#include <algorithm>

#include "pricing/job/findings.h"
#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

/// The condition of the first group of the part that may carry the line under one.
std::string condition_of(const Part& part, const MixLine& line) {
    for (const ChannelGroup& group : part.groups)
        if (!group.condition.empty() && accepts(group, line) > 0) return group.condition;
    return {};
}

void conditional_matches(const PanelChoice& choice, FindingSink& sink) {
    const BoxFacts& facts = choice.search->facts;
    const Demand& demand = facts.demand;
    for (const ModuleUse& use : choice.design->arrangement->member.uses)
        for (std::size_t mix = 0; mix < use.conditional.size(); ++mix) {
            if (use.conditional[mix] == 0) continue;
            const DemandLine& line = demand.lines[demand.mix[mix].lines.front()];
            sink.add("CONDITIONAL_MATCH", line_path(*facts.box, *line.points),
                     {{"signal", line.points->signal},
                      {"box", facts.box->name},
                      {"part", use.part->key},
                      {"condition", condition_of(*use.part, demand.mix[mix])}});
        }
}

void plain_terminals(const PanelChoice& choice, FindingSink& sink) {
    const Box& box = *choice.search->facts.box;
    for (const std::string& function : choice.search->parts.plain_instead)
        sink.add("TERMINAL_FUNCTION", "#" + box_path(box.index) + "/terminals",
                 {{"box", box.name},
                  {"function", function},
                  {"part", choice.search->parts.terminal->key}});
}

} // namespace

void demand_findings(const PanelChoice& choice, FindingSink& sink) {
    conditional_matches(choice, sink);
    plain_terminals(choice, sink);
}

} // namespace backplate
