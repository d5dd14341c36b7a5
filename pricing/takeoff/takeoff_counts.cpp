#include "pricing/takeoff/take_off.h"

namespace backplate {
namespace {

void add(SignalCounts& counts, const SignalCounts& more) {
    for (const auto& [signal, count] : more) counts[signal] += count;
}

} // namespace

SignalCounts Takeoff::counts() const {
    SignalCounts counts;
    for (const TakenPoint& point : points) ++counts[point.signal];
    return counts;
}

PanelCounts Takeoff::panels() const {
    PanelCounts panels;
    for (const TakenPoint& point : points) ++panels[point.panel][point.signal];
    return panels;
}

SignalCounts Takeoff::counts_if_accepted() const {
    SignalCounts accepted = counts();
    for (const OpenQuestion& question : ask)
        if (question.proposal) add(accepted, *question.proposal);
    return accepted;
}

PanelCounts Takeoff::panels_if_accepted() const {
    std::map<int, std::string> filled;
    for (const OpenQuestion& question : ask)
        if (!question.proposed_panel.empty()) filled[question.row] = question.proposed_panel;
    PanelCounts panels;
    for (const TakenPoint& point : points) {
        const auto found = filled.find(point.row);
        ++panels[found == filled.end() ? point.panel : found->second][point.signal];
    }
    for (const OpenQuestion& question : ask)
        if (question.proposal && !question.proposal->empty())
            add(panels[question.panel], *question.proposal);
    return panels;
}

} // namespace backplate
