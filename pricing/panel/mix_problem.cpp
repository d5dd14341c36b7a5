#include "pricing/panel/mix_problem.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "pricing/mix/accepts.h"
#include "pricing/panel/beaten_choices.h"
#include "pricing/panel/line_wiring.h"

namespace backplate {
namespace {

/// Bits for the articles of a mix, so that two choices can be compared by what they order.
class Articles {
public:
    std::uint64_t bit(const std::string& key) {
        const auto [found, added] = index_.emplace(key, index_.size());
        return std::uint64_t{1} << std::min<std::size_t>(found->second, 63);
    }

private:
    std::map<std::string, std::size_t> index_;
};

/// Builds the modules of one case.
class CaseBuilder {
public:
    CaseBuilder(const PriceBook& book, const BoxFacts& facts, const RuleBook& rules)
        : book_(book), facts_(facts), rules_(rules) {}

    /// Nothing where an accessory is missing or has no price.
    bool module(const Part& part, MixModule& out) {
        out.part = &part;
        std::int64_t cost = part.net()->steps();
        for (const Accessory& accessory : part.accessories) {
            const Part* extra = book_.find(accessory.part);
            if (!extra || !extra->net()) return false;
            cost += extra->net()->steps() * accessory.quantity;
        }
        const OptionalRule& side = rules_.room.platform.side_mm;
        const double clearance = side ? 2 * side->number() : 0;
        const double volts = rules_.supply.volts.number();
        out.sums[MixSums::cost] = cost;
        out.sums[MixSums::width] = need_in(part.width_mm.value_or(0) + clearance, 0.1);
        out.sums[MixSums::current] = need_in(part.own_a.value_or(0), 1e-5);
        out.sums[MixSums::heat] = need_in(part.own_a.value_or(0) * volts, 1e-4);
        out.sums[MixSums::modules] = 1;
        out.sums[MixSums::places] = part.kind == "controller" ? 0 : part.places;
        out.sums[MixSums::bus] = part.kind == "module" ? need_in(part.bus_ma, 1) : 0;
        add_channel_currents(part, out, volts);
        return true;
    }

    /// The articles that it orders.
    void number_articles(MixModule& module) {
        module.kinds = articles_.bit(module.part->key);
        for (const Accessory& accessory : module.part->accessories)
            module.kinds |= articles_.bit(accessory.part);
    }

private:
    void add_channel_currents(const Part& part, MixModule& out, double volts) const {
        for (const MixLine& line : facts_.demand.mix) {
            double own = 0;
            const Signal& signal = *facts_.demand.lines[line.lines.front()].module;
            for (const ChannelGroup& group : part.groups)
                if (accepts(group, line) > 0) own = std::max(own, input_current(group, signal));
            out.channel_current.push_back(need_in(own, 1e-5));
            out.channel_heat.push_back(need_in(own * volts, 1e-4));
        }
    }

    const PriceBook& book_;
    const BoxFacts& facts_;
    const RuleBook& rules_;
    Articles articles_;
};

/// Cost of testing one more channel and landing its screen, 1e-10 of the currency.
std::int64_t channel_work(const LabourPlan& plan, const Signal& signal) {
    BoxCounts with;
    with.tested_by_class[signal.work_class] = 1;
    with.shields = signal.shielded ? 1 : 0;
    return counted_work(plan, with);
}

/// What one more line of the bill costs in work, 1e-10 of the currency.
std::int64_t bill_line_work(const LabourPlan& plan) {
    BoxCounts with;
    with.bill_lines = 1;
    return counted_work(plan, with);
}

/// A module that makes no panel with the controller hotter or colder to keep, or deeper.
bool stays_within(const Part& module, const Part& controller) {
    const bool heat = !module.max_c || (controller.max_c && *module.max_c >= *controller.max_c);
    const bool cold = !module.min_c || (controller.min_c && *module.min_c <= *controller.min_c);
    return heat && cold && module.depth_mm.value_or(0) <= controller.depth_mm.value_or(0);
}

/// Work of one more article, ten-thousandths of the currency rounded up; nothing where articles
/// differ in more than their sums.
std::optional<std::int64_t> article_cost(const PlatformCase& result, const LabourPlan& plan) {
    for (const MixModule& module : result.problem.modules)
        if (!stays_within(*module.part, *result.leader)) return std::nullopt;
    constexpr std::int64_t step = 1'000'000;
    return (bill_line_work(plan) + step - 1) / step;
}

std::vector<ExtraChannel> extra_channels(const BoxFacts& facts, const LabourPlan& plan) {
    std::vector<ExtraChannel> result;
    for (const MixLine& mix : facts.demand.mix) {
        ExtraChannel extra;
        if (facts.request->spare.wired())
            for (const std::size_t line : mix.lines) {
                const ChannelWiring& direct = facts.wiring[line].direct;
                extra.terminals = std::max(extra.terminals, piece_steps(direct.terminals));
                extra.wires = std::max(extra.wires, piece_steps(direct.wires));
                extra.tested =
                    std::max(extra.tested, channel_work(plan, *facts.demand.lines[line].signal));
            }
        result.push_back(extra);
    }
    return result;
}

bool serves_any(const Part& part, const std::vector<MixLine>& lines) {
    for (const ChannelGroup& group : part.groups)
        for (const MixLine& line : lines)
            if (accepts(group, line) > 0) return true;
    return false;
}

/// Channels of the part that may serve the line.
int channels_for(const Part& part, const MixLine& line) {
    int channels = 0;
    for (const ChannelGroup& group : part.groups)
        if (accepts(group, line) > 0) channels += group.channels;
    return channels;
}

/// Serves a line, and has not more channels for a signal than spare modules are counted by.
bool may_carry(const Part& part, const BoxFacts& facts) {
    if (!serves_any(part, facts.demand.mix)) return false;
    for (const MixLine& line : facts.demand.mix)
        for (const std::size_t index : line.lines) {
            const auto most =
                facts.spare_modules.most.find(facts.demand.lines[index].points->signal);
            if (most != facts.spare_modules.most.end() && channels_for(part, line) > most->second)
                return false;
        }
    return true;
}

/// Spare as free places: percent of the places in each station, modules over all of them.
void keep_places(Closers& closers, const BoxFacts& facts) {
    const SpareRule& spare = facts.request->spare;
    if (spare.kind != SpareKind::slot) return;
    closers.free_places_percent =
        static_cast<int>(std::ceil(spare.percent.fallback.fraction() * 100));
    closers.free_of_used = spare.basis == SpareBasis::of_used;
    for (const SignalDemand& signal : facts.demand.signals)
        if (signal.used > 0) closers.free_places += spare.minimum_modules.of(signal.signal);
}

bool listed(const std::vector<std::string>& words, const std::string& word) {
    return words.empty() || std::find(words.begin(), words.end(), word) != words.end();
}

/// At least `quantity` of the module in the mix; false where it serves no signal that is asked.
bool take_at_least(MixProblem& problem, const Part* part, int quantity) {
    const auto found = std::find_if(problem.modules.begin(), problem.modules.end(),
                                    [&](const MixModule& module) { return module.part == part; });
    if (found == problem.modules.end()) return false;
    problem.keep.resize(problem.modules.size());
    int& least = problem.keep[static_cast<std::size_t>(found - problem.modules.begin())];
    least = std::max(least, quantity);
    return true;
}

/// Kept modules as the least counts of the mix; one of each that replaces another, lest a third
/// takes its points.
void keep_modules(PlatformCase& result, const PriceBook& book, const Choices& choices) {
    const auto module_of = [&](const std::string& key) {
        const Part* part = book.find(key);
        return part && part->kind == "module" && part->platform == result.platform ? part : nullptr;
    };
    for (const KeptPart& kept : choices.keep) {
        const Part* part = module_of(kept.part);
        if (part && !take_at_least(result.problem, part, kept.quantity))
            result.limits.push_back("choices, keep: " + kept.part +
                                    " serves no signal that is asked");
    }
    for (const ReplacedPart& each : choices.replace)
        if (const Part* part = module_of(each.by)) take_at_least(result.problem, part, 1);
}

void name_uncarried(PlatformCase& result) {
    for (const MixLine& line : result.problem.lines) {
        bool carried = serves_any(*result.leader, {line});
        for (const MixModule& module : result.problem.modules)
            carried = carried || serves_any(*module.part, {line});
        if (carried) continue;
        std::string text = "platform " + result.platform + " has no module for " + line.signal;
        if (line.switched && line.amps > 0) text += " at " + number_text(line.amps, 2) + " A";
        if (line.isolated) text += ", isolated";
        if (line.hart) text += ", HART";
        result.limits.push_back(text);
    }
}

/// Fewer channels fit into all places than are asked: no search is needed to say so.
void name_too_many(PlatformCase& result) {
    std::int64_t asked = 0, per_place = 0;
    for (const MixLine& line : result.problem.lines) asked += line.channels;
    for (const ChannelGroup& group : result.leader->groups) asked -= group.channels;
    for (const MixModule& module : result.problem.modules) {
        std::int64_t channels = 0;
        for (const ChannelGroup& group : module.part->groups) channels += group.channels;
        per_place = std::max(per_place, channels / std::max(1, module.part->places) + 1);
    }
    std::int64_t places = result.leader->places;
    for (const MixModule& head : result.closers.heads)
        places = std::max<std::int64_t>(
            places,
            result.leader->places + std::int64_t{result.closers.most_heads} * head.part->places);
    if (asked > places * per_place)
        result.limits.push_back(result.leader->key + " has too few places for " +
                                steps_text(asked, 0) + " channels");
}

/// The most stations that a controller of the platform leads.
int most_stations(const PriceBook& book, const std::string& platform, const BoxFacts& facts) {
    int most = 0;
    for (const Part* part : book.of_kind("controller"))
        if (part->platform == platform && may_choose(*part, *facts.box, *facts.request))
            most = std::max(most, part->stations_max);
    return most;
}

/// Heads beside the leader, by what the controller of the system may lead.
void limit_heads(PlatformCase& result, const PriceBook& book, const BoxFacts& facts) {
    const Part& leader = *result.leader;
    const JobShare& share = facts.share;
    const bool led = leader.kind == "head";
    const int stations =
        led ? share.most_stations.value_or(most_stations(book, leader.platform, facts))
            : leader.stations_max - share.heads_elsewhere;
    result.closers.most_heads = std::max(0, led ? stations - 1 : stations);
    if (led ? stations >= 1 : stations >= 0) return;
    result.limits.push_back(
        led ? "no controller of platform " + leader.platform + " leads a station in another box"
            : leader.key + " leads " + steps_text(leader.stations_max, 0) + " stations, " +
                  steps_text(share.heads_elsewhere, 0) + " stand in other boxes");
}

bool is_safety_controller(const Part& part) {
    return part.kind == "controller" && part.function == "safety";
}

/// The cheapest safety controller of the platform; a platform that has none needs none.
void take_safety(PlatformCase& result, const PriceBook& book, const BoxFacts& facts) {
    bool known = false;
    for (const Part* part : book.of_kind("controller")) {
        if (part->platform != result.platform || !is_safety_controller(*part)) continue;
        known = true;
        if (!may_choose(*part, *facts.box, *facts.request)) continue;
        if (!result.safety || *part->net() < *result.safety->net()) result.safety = part;
    }
    if (known && !result.safety)
        result.limits.push_back("no safety controller of platform " + result.platform +
                                " may be taken");
}

/// Modules, heads and feeds of the platform that another one does not stand in for.
void add_modules(PlatformCase& result, CaseBuilder& builder, const PriceBook& book,
                 const BoxFacts& facts, bool every) {
    std::set<std::string> stay = named_parts(*facts.box);
    const auto may_take = [&](const Part& part) {
        return part.platform == result.platform && may_choose(part, *facts.box, *facts.request) &&
               (part.kind != "module" || may_carry(part, facts));
    };
    const auto found_of = [&](std::string_view kind) {
        std::vector<MixModule> found;
        for (const Part* part : book.of_kind(kind)) {
            MixModule module;
            if (!may_take(*part) || !builder.module(*part, module)) continue;
            for (const Accessory& accessory : part->accessories) stay.insert(accessory.part);
            found.push_back(std::move(module));
        }
        return found;
    };
    std::vector<MixModule> modules = found_of("module"), heads = found_of("head"),
                           feeds = found_of("feed");
    const auto settle = [&](std::vector<MixModule>& into, std::vector<MixModule> found) {
        into = every ? std::move(found)
                     : without_beaten(std::move(found), result.problem, facts.box->site, stay,
                                      result.beaten);
        for (MixModule& module : into) builder.number_articles(module);
    };
    settle(result.problem.modules, std::move(modules));
    settle(result.closers.heads, std::move(heads));
    settle(result.closers.feeds, std::move(feeds));
}

PlatformCase make_case(const Part& leader, const PriceBook& book, const BoxFacts& facts,
                       const RuleBook& rules, const LabourPlan& plan, bool every) {
    PlatformCase result;
    result.platform = leader.platform;
    result.leader = &leader;
    result.problem.lines = facts.demand.mix;
    result.problem.extra = extra_channels(facts, plan);
    CaseBuilder builder(book, facts, rules);
    if (!builder.module(leader, result.problem.controller))
        result.limits.push_back(leader.key + " lacks an accessory in the price book");
    result.problem.controller.sums[MixSums::modules] = 1;
    result.problem.controller.sums[MixSums::places] = 0; // it gives them
    limit_heads(result, book, facts);
    builder.number_articles(result.problem.controller);
    add_modules(result, builder, book, facts, every);
    if (facts.safety) take_safety(result, book, facts);
    keep_places(result.closers, facts);
    keep_modules(result, book, facts.box->choices);
    result.problem.article_cost = article_cost(result, plan);
    name_uncarried(result);
    name_too_many(result);
    return result;
}

/// What may lead the first station, without those that another one of the platform stands in for.
std::vector<const Part*> leaders(const PriceBook& book, const BoxFacts& facts,
                                 const RuleBook& rules, bool every,
                                 std::vector<const Part*>& beaten) {
    const Box& box = *facts.box;
    const bool led = box.controlled_by == ControlledBy::other_box;
    CaseBuilder builder(book, facts, rules);
    std::map<std::string, std::vector<MixModule>> by_platform;
    std::vector<const Part*> found;
    for (const Part* leader : book.of_kind(led ? "head" : "controller")) {
        if (!may_choose(*leader, box, *facts.request) || is_safety_controller(*leader)) continue;
        if (!listed(box.choices.platforms, leader->platform)) continue;
        if (!facts.share.platform.empty() && leader->platform != facts.share.platform) continue;
        if (box.choices.redundant_controller && !leader->pair) continue;
        found.push_back(leader);
        MixModule module;
        if (builder.module(*leader, module)) by_platform[leader->platform].push_back(module);
    }
    if (every) return found;
    MixProblem problem;
    problem.lines = facts.demand.mix;
    for (auto& [platform, modules] : by_platform)
        without_beaten(std::move(modules), problem, box.site, named_parts(box), beaten);
    std::erase_if(found, [&](const Part* leader) {
        return std::find(beaten.begin(), beaten.end(), leader) != beaten.end();
    });
    return found;
}

} // namespace

std::int64_t counted_work(const LabourPlan& plan, const BoxCounts& with) {
    const BoxCounts without;
    std::int64_t sum = 0;
    for (const LabourPlan::Entry& entry : plan.counted)
        sum += entry.cost(with) - entry.cost(without);
    return sum;
}

std::vector<PlatformCase> platform_cases(const PriceBook& book, const BoxFacts& facts,
                                         const RuleBook& rules, const LabourPlan& plan,
                                         bool every) {
    std::vector<PlatformCase> cases;
    if (facts.no_controller) {
        cases.push_back(make_case(*facts.no_controller, book, facts, rules, plan, every));
        return cases;
    }
    std::vector<const Part*> beaten;
    for (const Part* leader : leaders(book, facts, rules, every, beaten))
        cases.push_back(make_case(*leader, book, facts, rules, plan, every));
    if (!cases.empty())
        cases.front().beaten.insert(cases.front().beaten.end(), beaten.begin(), beaten.end());
    return cases;
}

} // namespace backplate
