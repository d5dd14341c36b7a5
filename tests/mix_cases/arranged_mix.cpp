/// arranged_mix INSTANCE.json...: the cheapest choice of modules of every family with places and
/// bus current held per station, one kind of head and feed, one JSON line an instance. Asked by
/// check_arranged_mix.py.
#include <deque>
#include <fstream>
#include <iostream>
#include <limits>
#include <sstream>

#include "catalog/exchange/mix_instance.h"
#include "pricing/mix/mix_guide.h"

namespace backplate {
namespace {

constexpr std::int64_t fine = 1'000'000;

Part part_of(const BareItem& item, const char* kind, const BareMix& mix) {
    Part part;
    part.key = item.id;
    part.kind = kind;
    part.places = static_cast<int>(item.places);
    part.bus_ma = static_cast<double>(item.bus);
    part.stations_max = static_cast<int>(item.most_heads);
    for (const BareGroup& bare : item.groups) {
        ChannelGroup group;
        group.channels = bare.channels;
        group.one_signal = bare.one_signal;
        for (std::size_t i = 0; i < mix.signals.size(); ++i)
            if (bare.accepts >> i & 1) group.signals.push_back(mix.signals[i]);
        part.groups.push_back(group);
    }
    return part;
}

/// A family with the parts that its problem points at.
class ArrangedFamily {
public:
    ArrangedFamily(const BareMix& mix, const BareFamily& family) {
        for (std::size_t i = 0; i < mix.need.size(); ++i) {
            if (mix.need[i] == 0) continue;
            MixLine line;
            line.signal = mix.signals[i];
            line.channels = static_cast<int>(mix.need[i]);
            problem_.lines.push_back(line);
        }
        problem_.extra.resize(problem_.lines.size());
        for (const BareItem& item : family.modules)
            problem_.modules.push_back(module(item, "module", mix));
        if (!family.heads.empty())
            closers_.heads.push_back(module(family.heads.front(), "head", mix));
        if (!family.feeds.empty())
            closers_.feeds.push_back(module(family.feeds.front(), "feed", mix));
        for (const BareItem& item : family.controllers) solve(module(item, "controller", mix));
    }

    std::string json() const {
        if (!best_) return R"("status":"infeasible","cost_cents":null,"proven":true)";
        return R"("status":"optimal","cost_cents":)" + std::to_string(*best_) + R"(,"proven":)" +
               (doubted_ >= *best_ ? "true" : "false");
    }

private:
    MixModule module(const BareItem& item, const char* kind, const BareMix& mix) {
        parts_.push_back(part_of(item, kind, mix));
        MixModule result;
        result.part = &parts_.back();
        result.sums[MixSums::cost] = item.sums[0];
        const std::string word = kind;
        if (word == "module" || word == "feed") result.sums[MixSums::places] = item.places;
        if (word == "module") result.sums[MixSums::bus] = item.bus;
        result.channel_current.assign(problem_.lines.size(), 0);
        result.channel_heat.assign(problem_.lines.size(), 0);
        return result;
    }

    /// As the search of whole panels: from the least excess on, until no choice can be cheaper.
    void solve(const MixModule& controller) {
        problem_.controller = controller;
        const MixModule* head = closers_.heads.empty() ? nullptr : &closers_.heads.front();
        const int most = head ? controller.part->stations_max : 0;
        for (int heads = 0; heads <= most; ++heads) {
            const std::int64_t own =
                controller.sums[MixSums::cost] + (heads ? heads * head->sums[MixSums::cost] : 0);
            if (best_ && own >= *best_) return;
            MixRoom room;
            room.places = controller.part->places + (heads ? heads * head->part->places : 0);
            room.bus = static_cast<std::int64_t>(controller.part->bus_ma) +
                       (heads ? heads * static_cast<std::int64_t>(head->part->bus_ma) : 0);
            MixSums rate;
            rate[MixSums::cost] = fine;
            const auto guided = guided_mix(problem_, closers_, rate, room);
            if (!guided) continue;
            if (search(problem_, *guided, own, heads ? head : nullptr, heads)) continue;
            MixProblem shaped = problem_;
            tell_shapes(shaped);
            search(shaped, *guided, own, heads ? head : nullptr, heads);
        }
    }

    /// False: some choice found no places where its sums allow them.
    bool search(const MixProblem& problem, const GuidedMix& guided, std::int64_t own,
                const MixModule* head, int heads) {
        Work work;
        bool as_sums_allow = true;
        std::int64_t done = -1;
        for (MixGuide guide = guided.guide;; done = guide.limit) {
            guide.limit = done < 0 ? std::max(guided.least / 32, fine) : done * 4;
            if (best_) guide.limit = std::min(guide.limit, (*best_ - own) * fine - guided.least);
            if (guide.limit <= done) return as_sums_allow;
            const MixFront front = mix_front(problem, work, &guide);
            for (const MixMember& member : front.members)
                if (member.excess > done &&
                    !judge(member, own + (guided.least + member.excess) / fine, head, heads))
                    as_sums_allow = false;
            if (front.complete) return as_sums_allow;
        }
    }

    bool judge(const MixMember& member, std::int64_t least, const MixModule* head, int heads) {
        const Arranged arranged =
            arrangements_with(member, *problem_.controller.part, closers_, head, heads);
        if (!arranged.settled) doubted_ = std::min(doubted_, least);
        for (const Arrangement& each : arranged.arrangements) {
            const std::int64_t cost = each.member.sums[MixSums::cost];
            if (!best_ || cost < *best_) best_ = cost;
        }
        return arranged.as_sums_allow;
    }

    std::deque<Part> parts_;
    MixProblem problem_;
    Closers closers_;
    std::optional<std::int64_t> best_;
    std::int64_t doubted_ = std::numeric_limits<std::int64_t>::max();
};

void print(const std::string& path) {
    std::ifstream file(path);
    std::stringstream text;
    text << file.rdbuf();
    const BareMix mix = read_mix_instance(path, text.str());
    std::cout << R"({"name":")" << mix.name << R"(","families":[)";
    for (std::size_t i = 0; i < mix.families.size(); ++i) {
        BareFamily family = mix.families[i];
        if (family.heads.size() > 1) family.heads.resize(1);
        if (family.feeds.size() > 1) family.feeds.resize(1);
        for (BareItem& controller : family.controllers) controller.most_feeds = 1000;
        for (BareItem& head : family.heads) head.most_feeds = 1000;
        Work work;
        const BareAnswer sums = least_cost(mix, family, work);
        std::cout << (i ? "," : "") << R"({"id":")" << family.id << R"(",)"
                  << ArrangedFamily(mix, family).json() << R"(,"sum_cents":)"
                  << (sums.feasible ? std::to_string(sums.sums[0]) : "null") << "}";
    }
    std::cout << "]}\n";
}

} // namespace
} // namespace backplate

int main(int argc, char** argv) {
    for (int i = 1; i < argc; ++i) backplate::print(argv[i]);
    return 0;
}
