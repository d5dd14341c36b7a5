#include <algorithm>
#include <array>
#include <string_view>

#include "pricing/takeoff/take_off.h"

namespace backplate {
namespace {

void add(SignalCounts& counts, const SignalCounts& more) {
    for (const auto& [signal, count] : more) counts[signal] += count;
}

} // namespace

SignalCounts Takeoff::counts() const {
    SignalCounts counts;
    for (const TakenPoint& point : points) counts[point.signal] += point.count;
    return counts;
}

PanelCounts Takeoff::panels() const {
    PanelCounts panels;
    for (const TakenPoint& point : points) panels[point.panel][point.signal] += point.count;
    return panels;
}

SignalCounts Takeoff::counts_if_accepted() const {
    SignalCounts accepted = counts();
    for (const OpenQuestion& question : ask)
        if (question.proposal) add(accepted, *question.proposal);
    return accepted;
}

PanelCounts Takeoff::panels_if_accepted() const {
    std::map<std::pair<std::string, int>, std::string> filled;
    for (const OpenQuestion& question : ask)
        if (!question.proposed_panel.empty())
            filled[{question.sheet, question.row}] = question.proposed_panel;
    PanelCounts panels;
    for (const TakenPoint& point : points) {
        const auto found = filled.find({point.sheet, point.row});
        const auto& panel = found == filled.end() ? point.panel : found->second;
        panels[panel][point.signal] += point.count;
    }
    for (const OpenQuestion& question : ask)
        if (question.proposal && !question.proposal->empty())
            add(panels[question.panel], *question.proposal);
    return panels;
}

bool Takeoff::holds_rows() const {
    constexpr auto list_rows =
        std::array<std::string_view, 7>{"spare", "bus", "soft", "noio", "del", "zero", "answered"};
    return !points.empty() || has_questions() ||
           std::ranges::any_of(list_rows, [&](std::string_view why) {
               return rows_not_counted.contains(std::string(why));
           });
}

} // namespace backplate
