#include "pricing/panel/mix_cases.h"

#include <algorithm>
#include <bit>
#include <limits>
#include <utility>

#include "pricing/mix/component_paths.h"

namespace backplate {
namespace {

constexpr std::int64_t fine = MixRates::fine;
/// Least step of the excess asked for, in parts of the least cost.
constexpr std::int64_t first_parts = 64;
constexpr std::int64_t shaped_steps = 30'000; ///< of one case told apart by shapes

/// A controller's choice without modules.
MixMember bare_member(const MixProblem& problem) {
    MixMember member{problem.controller.sums, problem.controller.kinds, {}};
    const std::vector<int> none(problem.lines.size(), 0);
    if (!problem.controller.part->groups.empty())
        member.uses.push_back({problem.controller.part, none, none, none});
    return member;
}

/// Articles of modules that any choice orders: one for each component of lines.
std::int64_t least_lines(const MixProblem& problem) {
    if (!problem.controller.part->groups.empty()) return 0;
    const std::vector<int> roots = mix_components(problem);
    std::int64_t articles = 0;
    for (std::size_t i = 0; i < roots.size(); ++i)
        articles += roots[i] == static_cast<int>(i) ? 1 : 0;
    return articles;
}

MixRoom room_of(const PlatformCase& platform, const MixModule* head, int heads) {
    MixRoom room;
    room.places = platform.leader->places + (head ? heads * head->part->places : 0);
    room.bus = need_in(platform.leader->bus_ma + (head ? heads * head->part->bus_ma : 0), 1);
    return room;
}

} // namespace

MixCases::MixCases(const std::vector<PlatformCase>& platforms, PanelChoice& choice,
                   PanelSearch& panels, Work& work)
    : choice_(choice), panels_(panels), work_(work), platforms_(platforms),
      rates_(mix_rates(*choice.search)) {
    for (const PlatformCase& platform : platforms) {
        if (!platform.limits.empty()) continue;
        add(platform, nullptr, 0);
        for (const MixModule& head : platform.closers.heads) add(platform, &head, 1);
    }
}

/// Adds the case of so many heads, or of the fewest above that hold the modules.
void MixCases::add(const PlatformCase& platform, const MixModule* head, int heads) {
    const int most = head ? platform.closers.most_heads : 0;
    for (; heads <= most; ++heads) {
        auto guided = guided_mix(platform.problem, platform.closers, rates_.rate,
                                 room_of(platform, head, heads));
        if (!guided) continue;
        Case each{&platform, head, heads, std::move(*guided), 0, -1, 0, false};
        const auto bare = arrangements_with(bare_member(platform.problem), *platform.leader,
                                            platform.closers, head, heads);
        if (bare.arrangements.empty()) continue;
        each.around = around_least(platform, bare.arrangements.front());
        set_floor(each, panels_.least_with(*each.around));
        each.number = by_shapes_.size();
        by_shapes_.emplace_back();
        open_.push_back(std::move(each));
        return;
    }
}

/// A panel around the least current, heat and width of any choice of modules.
Start MixCases::around_least(const PlatformCase& platform, const Arrangement& bare) const {
    Start start{platform.platform, with_arrangement(*choice_.search, platform, bare)};
    const MixProblem& problem = platform.problem;
    const double amps = static_cast<double>(least_sum(problem, MixSums::current)) * 1e-5;
    start.design.load.all_on_a += amps;
    start.design.load.together_a += amps;
    start.design.load.inside_w += static_cast<double>(least_sum(problem, MixSums::heat)) * 1e-4;
    start.design.more_width = least_sum(problem, MixSums::width);
    return start;
}

/// `least`: direct cost of a panel around the least; the largest number where there is none.
void MixCases::set_floor(Case& each, std::int64_t least) const {
    each.hopeless = least == std::numeric_limits<std::int64_t>::max();
    if (each.hopeless) return;
    each.floor = least - rates_.roundings + least_lines(each.platform->problem) * rates_.bill_line;
    each.bound = each.floor + each.guided.least / fine;
}

void MixCases::run() {
    const auto later = [](const Case& a, const Case& b) {
        return a.hopeless != b.hopeless ? b.hopeless : a.bound < b.bound;
    };
    while (!open_.empty()) {
        const auto next = std::min_element(open_.begin(), open_.end(), later);
        if ((next->hopeless || !work_.wanted.cheapest) && panels_.found()) break;
        if (next->hopeless && !work_.wanted.reasons) break;
        if (panels_.found() && next->bound >= panels_.best()) break;
        if (work_.exhausted() && panels_.found()) {
            if (choice_.proven) choice_.lower_bound = next->bound;
            choice_.proven = false;
            break;
        }
        if (next->around && !next->hopeless) { // what is cheap at first sight is looked at closely
            Start start = std::move(*std::exchange(next->around, std::nullopt));
            set_floor(
                *next,
                panels_.probe(std::move(start)).value_or(std::numeric_limits<std::int64_t>::max()));
            continue;
        }
        Case each = std::move(*next);
        open_.erase(next);
        judge(each);
    }
    if (!panels_.found()) return note_unplaced();
    if (!doubted_ || *doubted_ >= panels_.best()) return;
    choice_.lower_bound = choice_.proven ? *doubted_ : std::min(choice_.lower_bound, *doubted_);
    choice_.proven = false;
}

/// Excess to ask for next: half as much again, no more than a cheaper panel may have. At first
/// whatever the least is.
std::int64_t MixCases::next_limit(const Case& each) const {
    std::int64_t limit = ComponentPaths::no_limit;
    if (each.done >= 0 && each.done < limit / 2)
        limit = each.done + std::max({each.done / 2, each.guided.least / first_parts, fine});
    if (!panels_.found()) return limit;
    return std::min(limit, (panels_.best() - each.floor) * fine - each.guided.least);
}

/// The choices told apart by shapes, in few steps, for shapes are many in a large box; what these
/// leave out leaves the proof open.
MixFront MixCases::shaped_front(const Case& each, const MixGuide& guide) {
    Work few;
    few.stop = work_.stop;
    few.budget = shaped_steps;
    MixFront front = mix_front(*each.shaped, few, &guide);
    work_.counts.mix_labels += few.counts.mix_labels;
    if (!front.proven) doubted_ = std::min(doubted_.value_or(each.bound), each.bound);
    return front;
}

/// Judges the choices up to the next limit; the case stays open where others lie beyond.
void MixCases::judge(Case& each) {
    if (each.hopeless) return try_least(each);
    const bool first = each.done < 0;
    if (each.shaped) by_shapes_[each.number].asked = true;
    MixGuide guide = each.guided.guide;
    guide.limit = next_limit(each);
    guide.least_only = first;
    const MixFront front = each.shaped ? shaped_front(each, guide)
                                       : fronts_.front(each.platform->problem, guide, work_);
    choice_.proven = choice_.proven && (front.proven || each.shaped);
    place(each, front, each.done);
    if (first && !each.shaped && each.head && each.heads < each.platform->closers.most_heads)
        add(*each.platform, each.head, each.heads + 1);
    if (front.complete || !front.proven) return;
    each.done = guide.limit;
    for (const MixMember& member : front.members)
        if (first) each.done = std::min(each.done, member.excess);
    each.bound = each.floor + (each.guided.least + each.done) / fine;
    open_.push_back(std::move(each));
}

/// A narrowest and a coolest choice, for what the refusal tells.
void MixCases::try_least(const Case& each) {
    const MixProblem& problem = each.platform->problem;
    for (const auto sum : {MixSums::width, MixSums::heat}) {
        MixSums rate;
        rate[sum] = fine;
        rate[MixSums::cost] = 1; // of several the cheapest
        const auto guided = guided_mix(problem, each.platform->closers, rate,
                                       room_of(*each.platform, each.head, each.heads));
        if (!guided) continue;
        MixGuide guide = guided->guide;
        guide.limit = ComponentPaths::no_limit;
        guide.least_only = true;
        MixFront front = mix_front(problem, work_, &guide);
        const auto least = std::min_element(
            front.members.begin(), front.members.end(),
            [](const MixMember& a, const MixMember& b) { return a.excess < b.excess; });
        if (least == front.members.end()) continue;
        front.members = {MixMember(*least)};
        place(each, front, -1);
    }
}

/// Where places and feeds are not what the sums of a choice allow, one that it beats in every sum
/// may do better: the case is asked again, choices told apart by the places of their modules.
void MixCases::tell_shapes_of(const Case& each, const Misfit& misfit) {
    ByShapes& again = by_shapes_[each.number];
    again.misfits.push_back(misfit);
    if (again.asked) return; // it goes on to what lies beyond
    const auto waiting = std::find_if(open_.begin(), open_.end(), [&](const Case& other) {
        return other.shaped && other.number == each.number;
    });
    if (waiting != open_.end()) {
        waiting->done = std::min(waiting->done, misfit.member.excess - 1);
        waiting->bound = std::min(waiting->bound, misfit.least);
        return;
    }
    Case other = each;
    auto shaped = std::make_shared<MixProblem>(each.platform->problem);
    tell_shapes(*shaped);
    other.shaped = std::move(shaped);
    other.done = misfit.member.excess - 1;
    other.bound = misfit.least;
    open_.push_back(std::move(other));
}

/// No panel around a choice told apart by shapes costs less, as a misfit beats it: the least around
/// that one and what the choice has more of at the rates. The least number where none beats it.
std::int64_t MixCases::least_beaten(const Case& each, const MixMember& member) const {
    std::int64_t most = 0;
    const auto& article = each.platform->problem.article_cost;
    for (const Misfit& misfit : by_shapes_[each.number].misfits) {
        if (!no_worse(misfit.member.sums, misfit.member.kinds, member.sums, member.kinds, article))
            continue;
        MixSums more = member.sums;
        for (std::size_t i = 0; i < more.value.size(); ++i)
            more.value[i] -= misfit.member.sums.value[i];
        more[MixSums::cost] -=
            std::popcount(misfit.member.kinds & ~member.kinds) * article.value_or(0);
        most = std::max(most, misfit.least + at_rates(more, rates_.rate) / fine - rates_.roundings);
    }
    return most;
}

Start MixCases::start_of(const Case& each, Arrangement arrangement, bool proven) const {
    Start start{each.platform->platform,
                with_arrangement(*choice_.search, *each.platform, std::move(arrangement))};
    start.design.mix_proven = proven;
    return start;
}

/// No panel around the choice, nor around one that it beats, costs less; the largest number where
/// none is cheaper than the best known.
std::int64_t MixCases::least_around(const Case& each, const MixMember& member) {
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    for (Arrangement& loose : loose_arrangements(member, *each.platform->leader,
                                                 each.platform->closers, each.head, each.heads))
        if (const auto cost = panels_.probe(start_of(each, std::move(loose), true)))
            least = std::min(least, *cost);
    return least;
}

/// No cheaper panel lies around the choice, nor around one that it beats.
bool MixCases::hopeless(const Case& each, const MixMember& member) {
    if (!panels_.found()) return false;
    if (each.shaped && least_beaten(each, member) >= panels_.best()) return true;
    return least_around(each, member) >= panels_.best();
}

/// Judges the choices beyond the excess already judged. What the steps do not settle leaves the
/// proof open.
void MixCases::place(const Case& each, const MixFront& front, std::int64_t beyond) {
    std::vector<Start> starts;
    for (const MixMember& member : front.members) {
        if (member.excess <= beyond || hopeless(each, member)) continue;
        work_.check_stop();
        Arranged arranged = arrangements_with(member, *each.platform->leader,
                                              each.platform->closers, each.head, each.heads);
        if (!arranged.as_sums_allow || !arranged.settled) {
            const std::int64_t least = least_around(each, member);
            if (!arranged.settled) doubted_ = std::min(doubted_.value_or(least), least);
            if (!each.shaped) tell_shapes_of(each, {member, least});
        }
        for (Arrangement& arrangement : arranged.arrangements)
            starts.push_back(start_of(each, std::move(arrangement), front.proven || each.shaped));
    }
    if (starts.empty()) return;
    placed_.push_back(each.platform);
    panels_.run(std::move(starts));
}

void MixCases::note_unplaced() {
    for (const PlatformCase& platform : platforms_)
        if (platform.limits.empty() &&
            std::find(placed_.begin(), placed_.end(), &platform) == placed_.end())
            choice_.limits.push_back(platform.leader->key +
                                     " has too few places or too little bus current");
}

} // namespace backplate
