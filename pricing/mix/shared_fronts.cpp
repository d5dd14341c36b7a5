#include "pricing/mix/shared_fronts.h"

#include <algorithm>

namespace backplate {
namespace {

bool same(const MixModule& a, const MixModule& b) {
    return a.part == b.part && a.sums.value == b.sums.value && a.kinds == b.kinds &&
           a.shape == b.shape && a.channel_current == b.channel_current &&
           a.channel_heat == b.channel_heat;
}

bool same(const ExtraChannel& a, const ExtraChannel& b) {
    return a.terminals == b.terminals && a.wires == b.wires && a.tested == b.tested;
}

/// Both of one price book and box, with controllers that have no channels of their own.
bool same_choices(const MixProblem& a, const MixProblem& b) {
    if (&a == &b) return true;
    return a.controller.part->groups.empty() && b.controller.part->groups.empty() &&
           a.controller.kinds == b.controller.kinds && a.article_cost == b.article_cost &&
           a.keep == b.keep &&
           std::equal(a.modules.begin(), a.modules.end(), b.modules.begin(), b.modules.end(),
                      [](const MixModule& x, const MixModule& y) { return same(x, y); }) &&
           std::equal(a.extra.begin(), a.extra.end(), b.extra.begin(), b.extra.end(),
                      [](const ExtraChannel& x, const ExtraChannel& y) { return same(x, y); });
}

bool same_prices(const MixGuide& a, const MixGuide& b) {
    return a.rate.value == b.rate.value && a.channels == b.channels && a.least_only == b.least_only;
}

/// The part of a front within a lower limit, around another controller.
MixFront within(const MixFront& front, std::int64_t limit, const MixSums& from, const MixSums& to) {
    MixFront part{{}, front.proven, front.complete};
    for (const MixMember& member : front.members) {
        if (member.excess > limit) {
            part.complete = false;
            continue;
        }
        part.members.push_back(member);
        MixSums& sums = part.members.back().sums;
        for (std::size_t i = 0; i < sums.value.size(); ++i)
            sums.value[i] += to.value[i] - from.value[i];
    }
    return part;
}

} // namespace

MixFront SharedFronts::front(const MixProblem& problem, const MixGuide& guide, Work& work) {
    Known* kept = nullptr;
    for (Known& known : known_) {
        if (!same_prices(known.guide, guide) || !same_choices(*known.problem, problem)) continue;
        if (known.guide.limit >= guide.limit)
            return within(known.front, guide.limit, known.problem->controller.sums,
                          problem.controller.sums);
        kept = &known;
    }
    MixFront front = mix_front(problem, work, &guide);
    if (!front.proven) return front;
    if (!kept) kept = &known_.emplace_back();
    *kept = {&problem, guide, front};
    return front;
}

} // namespace backplate
