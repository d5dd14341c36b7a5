#include "pricing/job/parting_search.h"

#include <algorithm>
#include <map>

#include "pricing/job/conflict_search.h"
#include "pricing/job/difference.h"
#include "pricing/panel/choose_boxes.h"
#include "pricing/request/check_request.h"
#include "pricing/request/options.h"
#include "pricing/values/listed.h"

namespace backplate {
namespace {

using Places = std::vector<std::size_t>;
using Texts = std::vector<std::string>;

Node change_of(Node boxes) {
    Node change = Node::make_object();
    change.member("boxes") = std::move(boxes);
    return change;
}

/// Asks of numbers of boxes whether they are enough.
class Asked {
public:
    Asked(const BidRequest& request, const Places& system, Parting how, const PriceBook& book,
          const RuleBook& rules, Work& work)
        : request_(request), how_(how), book_(book), rules_(rules), work_(work) {
        for (const std::size_t each : system) names_.push_back(request.boxes[each].name);
    }

    std::optional<FewestBoxes> run(int most) {
        const auto fewest = fewest_parts(most, [&](int boxes) { return built(boxes).has_value(); });
        return fewest ? built(*fewest) : std::nullopt;
    }

private:
    /// The job with so many boxes where they are built.
    std::optional<FewestBoxes> built(int boxes) {
        work_.check_stop();
        Parting how = how_;
        how.boxes = boxes;
        PartedBox parted = part_box(request_, how);
        Node changed = changeable(request_);
        apply_change(changed, change_of(parted.boxes));
        CheckedRequest checked = check_request(changed, rules_, request_.date);
        if (!checked.request || !builds(*checked.request, unlike(how, parted.names)))
            return std::nullopt;
        return FewestBoxes{how, std::move(parted), *std::move(checked.request)};
    }

    /// The further boxes but those that get what one before them gets.
    Texts unlike(const Parting& how, const Texts& names) const {
        const auto shares = shares_of(request_.boxes[how.box], how.boxes, how.shares);
        Texts first;
        for (auto share = shares.begin() + 1; share != shares.end(); ++share)
            if (std::find(shares.begin() + 1, share, *share) == share)
                first.push_back(names[static_cast<std::size_t>(share - shares.begin()) - 1]);
        return first;
    }

    /// Whether these boxes and those of the system before it was parted have panels.
    bool builds(const BidRequest& job, Texts names) {
        names.insert(names.end(), names_.begin(), names_.end());
        Work own = work_.beside({.cheapest = false, .reasons = false, .range = false});
        const auto asked = [&](const Box& box) {
            return std::find(names.begin(), names.end(), box.name) != names.end();
        };
        const auto all_designed = [&](const std::vector<PanelChoice>& choices, const Places& of) {
            return std::all_of(of.begin(), of.end(),
                               [&](std::size_t each) { return choices[each].design.has_value(); });
        };
        bool built = true;
        if (counts_over_job(job.spare)) {
            const std::vector<PanelChoice> choices = choose_boxes(job, book_, rules_, own);
            for (const Box& box : job.boxes)
                built = built && (!asked(box) || all_designed(choices, {box.index}));
        } else {
            for (const Box& box : job.boxes)
                if (built && asked(box) && box.controlled_by != ControlledBy::other_box)
                    built = all_designed(choose_system(job, box, book_, rules_, own),
                                         system_of(job, box));
        }
        work_.add_trial(own);
        return built;
    }

    const BidRequest& request_;
    Parting how_;
    const PriceBook& book_;
    const RuleBook& rules_;
    Work& work_;
    Texts names_;
};

/// A job whose unbuilt systems are parted one after the other.
struct PartedJob {
    BidRequest request;
    Node boxes = Node::make_object();
    Texts parted, shares; ///< in words
    Node options;
    Texts left_out;
};

void take(PartedJob& job, FewestBoxes found) {
    const Box& box = job.request.boxes[found.how.box];
    const std::string number = steps_text(found.how.boxes, 0);
    job.parted.push_back(box.name + " over " + number + " boxes");
    job.shares.push_back("at most " + largest_share(job.request, found.how) + " in a box of " +
                         box.name);
    if (!box.equipment.empty()) job.shares.back() += ", its equipment in the first";
    if (found.how.boxes > 2)
        job.shares.back() += "; over " + steps_text(found.how.boxes - 1, 0) + " it is not built";
    for (Member& each : found.parted.boxes.members) job.boxes.members.push_back(std::move(each));
    OptionsAfter after = options_after(job.options, box.name, found.parted.names);
    if (!after.options.is(Node::Kind::null)) job.options = std::move(after.options);
    job.left_out.insert(job.left_out.end(), after.left_out.begin(), after.left_out.end());
    job.request = std::move(found.request);
}

/// The box of the system that needs the fewest boxes in its place.
std::optional<FewestBoxes> fewest_of_system(const BidRequest& request, const Places& system,
                                            Shares shares, Controllers controllers,
                                            const PriceBook& book, const RuleBook& rules,
                                            Work& work) {
    std::optional<FewestBoxes> best;
    for (const std::size_t box : system) {
        auto found = fewest_boxes(request, system, box, shares, controllers, book, rules, work);
        if (found && (!best || found->how.boxes < best->how.boxes)) best = std::move(found);
    }
    return best;
}

bool system_built(const Estimate& base, const Places& system) {
    return std::all_of(system.begin(), system.end(), [&](std::size_t each) {
        return box_built(base, base.request.boxes[each].name);
    });
}

/// Nothing where a system stays unbuilt.
std::optional<PartedJob> part_job(const Estimate& base, Shares shares, Controllers controllers,
                                  const PriceBook& book, const RuleBook& rules, Work& work) {
    PartedJob job;
    job.request = base.request;
    const Node* options = at_pointer(base.request.sent, "/commercial/options");
    if (options && options->is(Node::Kind::list)) job.options = *options;
    const Node sent_options = job.options;
    for (const Box& own : base.request.boxes) {
        if (own.controlled_by == ControlledBy::other_box) continue;
        const Places system = system_of(base.request, own);
        if (system_built(base, system)) continue;
        auto found = fewest_of_system(job.request, system, shares, controllers, book, rules, work);
        if (!found) return std::nullopt;
        take(job, *std::move(found));
    }
    if (job.options == sent_options) job.options = Node::make_null();
    return job;
}

Trial trial_of(PartedJob job, Shares shares, Controllers controllers) {
    Trial trial;
    trial.title =
        listed(job.parted) +
        (controllers == Controllers::each ? ", a controller in each" : ", one controller") +
        (shares == Shares::even ? "" : ", signals together");
    trial.reason = listed(job.shares, "and");
    if (controllers == Controllers::one)
        trial.reason += "; the lines between them are assumed, state their lengths";
    if (!job.left_out.empty())
        trial.reason +=
            "; options left out, they change what was shared out: " + listed(job.left_out);
    trial.change = change_of(std::move(job.boxes));
    if (!job.options.is(Node::Kind::null)) {
        Node commercial = Node::make_object();
        commercial.member("options") = std::move(job.options);
        trial.change.member("commercial") = std::move(commercial);
    }
    trial.always = true;
    return trial;
}

} // namespace

std::optional<FewestBoxes> fewest_boxes(const BidRequest& request, const Places& system,
                                        std::size_t box, Shares shares, Controllers controllers,
                                        const PriceBook& book, const RuleBook& rules, Work& work) {
    const Box& asked = request.boxes[box];
    const bool points = std::any_of(asked.points.begin(), asked.points.end(),
                                    [](const PointLine& line) { return !line.of_assembly; });
    if (!points || !rules.conflicts.most_boxes) return std::nullopt;
    const int most = static_cast<int>(rules.conflicts.most_boxes->number());
    return Asked(request, system, {box, 2, shares, controllers}, book, rules, work).run(most);
}

std::string largest_share(const BidRequest& request, const Parting& how) {
    const Box& box = request.boxes[how.box];
    std::map<std::string, int> largest;
    for (const BoxShare& share : shares_of(box, how.boxes, how.shares)) {
        std::map<std::string, int> counts;
        std::size_t place = 0;
        for (const PointLine& line : box.points)
            if (!line.of_assembly) counts[line.signal] += share[place++];
        for (const auto& [signal, count] : counts)
            largest[signal] = std::max(largest[signal], count);
    }
    Texts words;
    for (const auto& [signal, count] : largest)
        if (count > 0) words.push_back(steps_text(count, 0) + " " + signal);
    return listed(words);
}

std::vector<Trial> parted_trials(const Estimate& base, const PriceBook& book, const RuleBook& rules,
                                 Work& work) {
    std::vector<Trial> trials;
    for (const Shares shares : {Shares::even, Shares::together})
        for (const Controllers controllers : {Controllers::each, Controllers::one})
            if (auto job = part_job(base, shares, controllers, book, rules, work))
                trials.push_back(trial_of(*std::move(job), shares, controllers));
    return trials;
}

} // namespace backplate
