#include "pricing/panel/mix_cases.h"

#include <algorithm>
#include <cmath>

#include "pricing/mix/component_paths.h"
#include "pricing/panel/line_wiring.h"

namespace backplate {
namespace {

/// Steps of 1e-10 of the currency in a ten-thousandth.
constexpr std::int64_t fine = 1'000'000;
constexpr std::int64_t pieces = 10'000; // steps of a terminal or wire
/// Excess asked for at first, in parts of the least cost, and how many times as much next.
constexpr std::int64_t first_parts = 64, more = 4;
constexpr std::int64_t shaped_steps = 30'000; ///< of one case told apart by shapes

const Rule* row_of(const std::map<std::string, Rule>& table, const char* key) {
    const auto found = table.find(key);
    return found == table.end() ? nullptr : &found->second;
}

std::int64_t raised(std::int64_t amount, std::int64_t percent_steps) {
    constexpr std::int64_t hundred = 1'000'000;
    return multiply_divide(amount, hundred + percent_steps, hundred, Rounding::down);
}

/// What grows with modules, and what it costs at least.
class Rates {
public:
    explicit Rates(const SearchFacts& search) : search_(search) {}

    MixSums rates() const {
        MixSums rate;
        rate[MixSums::cost] = goods(fine);
        rate[MixSums::tested] = labour(1);
        rate[MixSums::terminals] = terminal() / pieces;
        rate[MixSums::wires] = wire() / pieces;
        BoxCounts module;
        module.modules = 1;
        if (const Rule* row = row_of(search_.rules->sheets, "typical module"))
            module.sheets_typical = static_cast<int>(up(*row));
        rate[MixSums::modules] = labour(counted_work(search_.plan, module));
        if (const Rule* row = row_of(search_.rules->wires, "per module"))
            rate[MixSums::modules] += wire() / pieces * piece_steps(*row);
        return rate;
    }

    /// What rounding to whole metres, pieces and sheets may have counted too much in a panel
    /// without its modules, ten-thousandths.
    std::int64_t roundings() const {
        BoxCounts counts;
        counts.wires = counts.terminals = 1;
        counts.sheets_generated = 2;
        counts.sheets_typical = 1;
        const Part* wire = search_.parts.wire;
        const std::int64_t metre = wire ? wire->net()->steps() : 0;
        return (goods(metre * fine) + terminal() + labour(counted_work(search_.plan, counts))) /
                   fine +
               100;
    }

private:
    static std::int64_t up(const Rule& rule) { return round_to_steps(rule.value, 0, Rounding::up); }
    /// Price of one box with what is added to goods, in all boxes.
    std::int64_t goods(std::int64_t price) const {
        const ChargePlan& plan = search_.charges;
        return raised(raised(price * search_.facts.box->quantity, plan.sundries),
                      plan.freight + plan.of_goods);
    }
    std::int64_t labour(std::int64_t cost) const { return raised(cost, search_.charges.of_labour); }
    std::int64_t terminal() const {
        std::int64_t price = search_.parts.terminal ? search_.parts.terminal->net()->steps() : 0;
        for (const auto& [function, part] : search_.parts.own_terminals)
            price = std::min(price, part->net()->steps());
        BoxCounts one;
        one.terminals = 1;
        return goods(price * fine) + labour(counted_work(search_.plan, one));
    }
    std::int64_t wire() const {
        BoxCounts one;
        one.wires = 1;
        std::int64_t cost = labour(counted_work(search_.plan, one));
        const Rule* length = row_of(search_.rules->wires, "length");
        if (length && search_.parts.wire)
            cost += goods(static_cast<std::int64_t>(
                std::floor(length->number() *
                           static_cast<double>(search_.parts.wire->net()->steps() * fine))));
        return cost;
    }

    const SearchFacts& search_;
};

/// A controller's choice without modules.
MixMember bare_member(const MixProblem& problem) {
    MixMember member{problem.controller.sums, problem.controller.kinds, {}};
    const std::vector<int> none(problem.lines.size(), 0);
    if (!problem.controller.part->groups.empty())
        member.uses.push_back({problem.controller.part, none, none, none});
    return member;
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
    : choice_(choice), panels_(panels), work_(work), platforms_(platforms) {
    for (const PlatformCase& platform : platforms) {
        if (!platform.limits.empty()) continue;
        add(platform, nullptr, 0);
        for (const MixModule& head : platform.closers.heads) add(platform, &head, 1);
    }
}

/// Adds the case of so many heads, or of the fewest above that hold the modules.
void MixCases::add(const PlatformCase& platform, const MixModule* head, int heads) {
    const int most = head ? platform.closers.most_heads : 0;
    const MixSums rate = Rates(*choice_.search).rates();
    for (; heads <= most; ++heads) {
        auto guided =
            guided_mix(platform.problem, platform.closers, rate, room_of(platform, head, heads));
        if (!guided) continue;
        Case each{&platform, head, heads, std::move(*guided), 0, -1, 0, false};
        const auto bare = arrangements_with(bare_member(platform.problem), *platform.leader,
                                            platform.closers, head, heads);
        if (bare.arrangements.empty()) continue;
        Start start{platform.platform,
                    with_arrangement(*choice_.search, platform, bare.arrangements.front())};
        const MixProblem& problem = platform.problem;
        const double amps = static_cast<double>(least_sum(problem, MixSums::current)) * 1e-5;
        start.design.load.all_on_a += amps;
        start.design.load.together_a += amps;
        start.design.load.inside_w += static_cast<double>(least_sum(problem, MixSums::heat)) * 1e-4;
        start.design.more_width = least_sum(problem, MixSums::width);
        const auto floor = panels_.probe(std::move(start));
        each.hopeless = !floor;
        if (floor) each.floor = *floor - Rates(*choice_.search).roundings();
        if (floor) each.bound = each.floor + each.guided.least / fine;
        open_.push_back(std::move(each));
        return;
    }
}

void MixCases::run() {
    const auto later = [](const Case& a, const Case& b) {
        return a.hopeless != b.hopeless ? b.hopeless : a.bound < b.bound;
    };
    while (!open_.empty()) {
        const auto next = std::min_element(open_.begin(), open_.end(), later);
        if ((next->hopeless || work_.any_panel) && panels_.found()) break;
        if (panels_.found() && next->bound >= panels_.best()) break;
        if (work_.exhausted() && panels_.found()) {
            if (choice_.proven) choice_.lower_bound = next->bound;
            choice_.proven = false;
            break;
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

/// Excess to ask for next: four times as much as before, no more than a cheaper panel may have.
std::int64_t MixCases::next_limit(const Case& each) const {
    std::int64_t limit = ComponentPaths::no_limit;
    if (each.done < 0)
        limit = std::max(each.guided.least / first_parts, fine);
    else if (each.done < ComponentPaths::no_limit / more)
        limit = (each.done + 1) * more;
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
    MixGuide guide = each.guided.guide;
    guide.limit = next_limit(each);
    const MixFront front =
        each.shaped ? shaped_front(each, guide) : mix_front(each.platform->problem, work_, &guide);
    choice_.proven = choice_.proven && (front.proven || each.shaped);
    const bool as_sums_allow = place(each, front, each.done);
    if (first && !each.shaped && each.head && each.heads < each.platform->closers.most_heads)
        add(*each.platform, each.head, each.heads + 1);
    if (!as_sums_allow && !each.shaped) return tell_shapes_of(each);
    if (front.complete || !front.proven) return;
    each.done = guide.limit;
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
void MixCases::tell_shapes_of(Case& each) {
    auto shaped = std::make_shared<MixProblem>(each.platform->problem);
    tell_shapes(*shaped);
    each.shaped = std::move(shaped);
    each.done = -1;
    each.bound = each.floor + each.guided.least / fine;
    open_.push_back(std::move(each));
}

/// A choice whose places the steps did not settle leaves the proof open.
void MixCases::doubt(const Case& each, const MixMember& member) {
    const std::int64_t least = each.floor + (each.guided.least + member.excess) / fine;
    doubted_ = std::min(doubted_.value_or(least), least);
}

/// Judges the choices beyond the excess already judged; false where the places of one are fewer, or
/// its feeds more, than its sums allow.
bool MixCases::place(const Case& each, const MixFront& front, std::int64_t beyond) {
    std::vector<Start> starts;
    bool as_sums_allow = true;
    for (const MixMember& member : front.members) {
        if (member.excess <= beyond) continue;
        Arranged arranged = arrangements_with(member, *each.platform->leader,
                                              each.platform->closers, each.head, each.heads);
        as_sums_allow = as_sums_allow && arranged.as_sums_allow;
        if (!arranged.settled) doubt(each, member);
        for (Arrangement& arrangement : arranged.arrangements) {
            work_.check_stop();
            starts.push_back(
                {each.platform->platform,
                 with_arrangement(*choice_.search, *each.platform, std::move(arrangement))});
            starts.back().design.mix_proven = front.proven || each.shaped;
        }
    }
    if (starts.empty()) return as_sums_allow;
    placed_.push_back(each.platform);
    panels_.run(std::move(starts));
    return as_sums_allow;
}

void MixCases::note_unplaced() {
    for (const PlatformCase& platform : platforms_)
        if (platform.limits.empty() &&
            std::find(placed_.begin(), placed_.end(), &platform) == placed_.end())
            choice_.limits.push_back(platform.leader->key +
                                     " has too few places or too little bus current");
}

} // namespace backplate
