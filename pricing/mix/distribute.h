#pragma once

#include <vector>

#include "pricing/mix/front.h"

namespace backplate {

/// One way to use the channels of a module (or of a controller's own groups).
struct Spread {
    std::vector<int> carried;          ///< by line
    std::vector<int> extra;            ///< by line
    std::vector<int> conditional = {}; ///< of `carried`, by line, in groups with a condition
};

/// Ways that carry less than this are of no use.
struct LeastWorth {
    const std::vector<std::int64_t>* prices = nullptr; ///< of a channel, by line; not negative
    std::int64_t least = 0;                            ///< sum over the channels carried
};

/// Every useful way to give the part's channels to the lines with `open` channels left: no channel
/// stays idle where a line that it may carry is open. All channels of a group that is selectable as
/// a whole serve one signal. Channels beyond go to the dearest line the group may carry (decision
/// 6).
class SpreadSearch {
public:
    /// `greedy`: only the first way, filling the lines in order. `worth`: null: every way.
    SpreadSearch(const Part& part, const MixProblem& problem, const std::vector<int>& open,
                 bool greedy, const LeastWorth* worth = nullptr)
        : part_(part), problem_(problem), open_(open), greedy_(greedy), worth_(worth) {}

    std::vector<Spread> run();
    bool left_out() const { return left_out_; } ///< some way was not worth enough

private:
    struct GroupCase;
    struct Filling;

    GroupCase case_of(const ChannelGroup& group, const std::vector<int>& open) const;
    int dearest(const GroupCase& group, const Filling& filling) const;
    void fill_line(const GroupCase& group, std::size_t line, const Filling& filling,
                   std::int64_t least, std::vector<Filling>& out);
    std::vector<Spread> extend(const std::vector<Spread>& before, std::size_t group);
    std::int64_t price(std::size_t line) const { return (*worth_->prices)[line]; }
    std::int64_t worth_of(const std::vector<int>& carried) const;
    std::int64_t most_worth(const ChannelGroup& group) const;

    const Part& part_;
    const MixProblem& problem_;
    const std::vector<int>& open_;
    bool greedy_;
    const LeastWorth* worth_;
    bool left_out_ = false;
};

/// The same as a list; every way, or the first one.
std::vector<Spread> spreads(const Part& part, const MixProblem& problem,
                            const std::vector<int>& open, bool greedy);

} // namespace backplate
