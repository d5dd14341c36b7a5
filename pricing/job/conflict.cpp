#include "pricing/job/conflict.h"

#include <algorithm>

#include "pricing/job/conflict_search.h"
#include "pricing/job/difference.h"
#include "pricing/job/findings.h"
#include "pricing/job/parting_search.h"
#include "pricing/job/request_limits.h"
#include "pricing/panel/choose_boxes.h"
#include "pricing/values/listed.h"

namespace backplate {
namespace {

using Places = std::vector<std::size_t>;
using Texts = std::vector<std::string>;

/// One system under some of its limits.
class System {
public:
    System(const BidRequest& request, Places boxes, const PriceBook& book, const RuleBook& rules,
           Work& work)
        : request_(request), boxes_(std::move(boxes)), book_(book), rules_(rules), work_(work),
          limits_(request_limits(request, boxes_, rules)) {
        request_.options.clear();
    }

    const std::vector<RequestLimit>& limits() const { return limits_; }
    std::string path() const { return box_path(boxes_.front()); }
    const std::string& name() const { return request_.boxes[boxes_.front()].name; }

    /// What binds under the limits imposed; empty where it is built.
    Texts binding(const Imposed& imposed) const {
        BidRequest job = request_;
        for (std::size_t i = 0; i < limits_.size(); ++i)
            if (!imposed[i]) limits_[i].lift(job);
        return binding(job);
    }

    /// The box alone in its system, parted evenly over as few boxes with controllers of their own
    /// as do; every limit kept.
    std::optional<FewestBoxes> fewest() const {
        if (boxes_.size() != 1) return std::nullopt;
        return fewest_boxes(request_, boxes_, boxes_.front(), Shares::even, Controllers::each,
                            book_, rules_, work_);
    }
    const BidRequest& request() const { return request_; }

    Texts texts_of(const Places& places) const {
        Texts texts;
        for (const std::size_t each : places) texts.push_back(limits_[each].text);
        return texts;
    }

    std::string fields_of(const Places& places) const {
        std::string text;
        for (const std::size_t each : places)
            text += (text.empty() ? "" : ", ") + limits_[each].where;
        return text;
    }

private:
    Texts binding(const BidRequest& job) const {
        work_.check_stop();
        Work own = work_.beside({.cheapest = false, .range = false});
        const std::vector<PanelChoice> choices =
            counts_over_job(job.spare)
                ? choose_boxes(job, book_, rules_, own)
                : choose_system(job, job.boxes[boxes_.front()], book_, rules_, own);
        Texts texts;
        for (const std::size_t box : boxes_)
            if (!choices[box].design)
                for (const std::string& limit : choices[box].limits)
                    if (std::find(texts.begin(), texts.end(), limit) == texts.end())
                        texts.push_back(limit);
        const bool built = std::all_of(boxes_.begin(), boxes_.end(), [&](std::size_t box) {
            return choices[box].design.has_value();
        });
        if (!built && texts.empty()) texts.emplace_back("no panel");
        return built ? Texts{} : texts;
    }

    BidRequest request_;
    Places boxes_;
    const PriceBook& book_;
    const RuleBook& rules_;
    Work& work_;
    std::vector<RequestLimit> limits_;
};

std::string way_out(const Conflict& found, const System& system) {
    const bool one = found.together.size() == 1;
    if (found.alone == found.together)
        return one ? "without it a panel can be built"
                   : "without any one of them a panel can be built";
    if (found.give_up.empty()) return "further limits stand in the way";
    if (!found.alone.empty())
        return "a panel can be built without " + listed(system.texts_of(found.alone), "or without");
    return "further limits stand in the way: a panel can be built without " +
           listed(system.texts_of(found.give_up));
}

std::string conflict_text(const Conflict& found, const System& system) {
    if (found.without_any) {
        const Texts binding = system.binding(Imposed(system.limits().size(), false));
        return "even with every limit of the request lifted nothing builds it: " + listed(binding);
    }
    return listed(system.texts_of(found.together)) + " cannot be met" +
           (found.together.size() > 1 ? " together" : "") +
           (found.smallest ? "" : " (not proven the smallest such set)") + "; " +
           way_out(found, system);
}

/// "; its points parted evenly over 3 boxes …": the fewest that do; empty where parting is of no
/// help.
std::string parting_text(const System& system) {
    const std::optional<FewestBoxes> found = system.fewest();
    if (!found) return {};
    const int boxes = found->how.boxes;
    const bool equipment = !system.request().boxes[found->how.box].equipment.empty();
    std::string text = "; its points parted evenly over " + steps_text(boxes, 0) +
                       " boxes can be built under every limit, each box with a controller of its "
                       "own and at most " +
                       largest_share(system.request(), found->how) +
                       (equipment ? ", the equipment in the first" : "");
    if (boxes > 2) text += "; over " + steps_text(boxes - 1, 0) + " they cannot";
    return text + "; the alternatives price it";
}

void add_conflict(const System& system, int most_runs, FindingSink& sink) {
    const auto builds = [&](const Imposed& imposed) { return system.binding(imposed).empty(); };
    const Conflict found = smallest_conflict(system.limits().size(), builds, most_runs);
    if (!found.without_any && found.together.empty()) return;
    const std::string fields = system.fields_of(found.together);
    const std::string where =
        found.together.empty() ? system.path() : system.limits()[found.together.front()].where;
    sink.add("LIMITS_TOGETHER", where,
             {{"box", system.name()},
              {"conflict", conflict_text(found, system) + parting_text(system)},
              {"fields", fields.empty() ? "none" : fields}});
}

} // namespace

void add_conflicts(Estimate& estimate, const PriceBook& book, const RuleBook& rules, Work& work) {
    const bool asked = rules.conflicts.most_runs && rules.find_finding("LIMITS_TOGETHER");
    if (estimate.buildable || !asked) return;
    const BidRequest& request = estimate.request;
    FindingSink sink(rules, request.inch, estimate.findings);
    for (const Box& own : request.boxes) {
        if (own.controlled_by == ControlledBy::other_box) continue;
        const Places boxes = system_of(request, own);
        if (std::all_of(boxes.begin(), boxes.end(), [&](std::size_t box) {
                return box_built(estimate, request.boxes[box].name);
            }))
            continue;
        const System system(request, boxes, book, rules, work);
        add_conflict(system, static_cast<int>(rules.conflicts.most_runs->number()), sink);
    }
    sort_findings(estimate.findings, rules);
}

} // namespace backplate
