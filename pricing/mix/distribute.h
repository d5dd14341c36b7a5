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

/// Channels of one group against the lines of a problem, whatever is open.
struct GroupFacts {
    std::vector<int> acceptable;    ///< by line: what the group could ever carry of it
    std::vector<std::int64_t> need; ///< by line: what a channel takes of the common current
    std::vector<int> signal;        ///< by line: equal numbers are the same signal
    bool one_signal = false;        ///< its channels serve one signal
    bool conditional = false;
    int channels = 0;
    std::int64_t common = 0; ///< what the channels give together
    friend bool operator==(const GroupFacts&, const GroupFacts&) = default;
};
std::vector<GroupFacts> group_facts(const Part& part, const MixProblem& problem);

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
    SpreadSearch(const std::vector<GroupFacts>& groups, const MixProblem& problem,
                 const std::vector<int>& open, bool greedy, const LeastWorth* worth = nullptr)
        : groups_(groups), problem_(problem), open_(open), greedy_(greedy), worth_(worth) {}

    std::vector<Spread> run();
    bool left_out() const { return left_out_; } ///< some way was not worth enough

private:
    struct Filling;
    /// What a group may take now.
    struct GroupCase {
        const GroupFacts& facts;
        std::vector<int> most;             ///< by line: at most this many of the line
        std::vector<std::int64_t> dearest; ///< by line: highest price from this line on
    };

    GroupCase case_of(const GroupFacts& group, const std::vector<int>& carried) const;
    int dearest(const GroupFacts& group, const Filling& filling) const;
    void fill_line(const GroupCase& group, std::size_t line, const Filling& filling,
                   std::int64_t least, std::vector<Filling>& out);
    std::vector<Spread> extend(const std::vector<Spread>& before, std::size_t group);
    std::int64_t price(std::size_t line) const { return (*worth_->prices)[line]; }
    std::int64_t worth_of(const std::vector<int>& carried) const;
    std::int64_t most_worth(const GroupFacts& group) const;

    const std::vector<GroupFacts>& groups_;
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
