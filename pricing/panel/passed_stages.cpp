#include "pricing/panel/passed_stages.h"

#include <algorithm>
#include <map>

namespace backplate {
namespace {

/// A stage and the best that was found of it.
struct Found {
    const Part* part = nullptr;
    double shed_w = -1; ///< below 0: it may not cool the box
    std::string reason;
};

std::string heat_reason(const PanelDesign& design, double shed_w) {
    const std::string inside = number_text(design.inside.value, 1);
    if (shed_w >= design.inside.value) return "it would do; the whole with it costs more";
    return number_text(shed_w, 1) + " of " + inside + " W could leave";
}

} // namespace

std::vector<PassedStage> passed_stages(const PanelDesign& design, const SearchFacts& search,
                                       Work& work) {
    if (!design.stage.part || !search.housing.walls_known) return {};
    const Box& box = *search.facts.box;
    const Celsius top = highest_top(design, search);
    const auto shed = [&](const CoolingStage& stage) {
        return heat_shed_at(design.enclosure, box, stage, top, *search.rules, work).value;
    };
    std::vector<PassedStage> passed{{"sealed", "", heat_reason(design, shed({}))}};
    const auto price = [](const Part& part) { return part.net()->steps(); };
    std::map<std::string, Found> best;
    for (const Part* part : search.book->of_kind("cooling")) {
        if (!may_choose(*part, box, *search.facts.request)) continue;
        if (price(*part) >= price(*design.stage.part)) continue;
        const std::string refused = why_not_cooling(*part, search.facts);
        Found& found = best[part->stage];
        const double own =
            refused.empty() ? shed({part->stage, part, design.enclosure.pieces}) : -1;
        if (found.part && found.shed_w >= own) continue;
        found = {part, own, refused};
        if (refused.empty()) found.reason = heat_reason(design, own);
        if (refused.empty() && !fits_wall(*part, *design.enclosure))
            found.reason = "it is too large for the wall";
    }
    for (const auto& [stage, found] : best)
        passed.push_back({stage, found.part->key, found.reason});
    return passed;
}

} // namespace backplate
