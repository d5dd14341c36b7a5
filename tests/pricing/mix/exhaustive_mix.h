#pragma once

#include <cstdint>
#include <deque>
#include <tuple>
#include <vector>

#include "pricing/mix/front.h"
#include "tests/pricing/sample_books.h"

namespace backplate {

/// A problem with the parts that its modules point at.
struct Sample {
    std::deque<Part> parts;
    MixProblem problem;
};

/// Two to four lines, a controller with or without channels, two to five types of modules.
void random_sample(Draws& draws, Sample& sample);

/// A choice of modules that leaves channels open.
struct Partial {
    std::vector<int> open;
    MixSums sums;
    std::uint64_t kinds = 0;
    bool operator<(const Partial& other) const {
        return std::tie(open, sums.value, kinds) <
               std::tie(other.open, other.sums.value, other.kinds);
    }
};

/// What the exhaustive search may do with a module's channels.
enum class Fill {
    any,    ///< carry what it likes, in modules of any order
    maximal ///< leave no channel idle where a line that it may carry is open (the rule of spreads)
};

/// Every cover by any number of modules, of which each carries something, without any cut.
std::vector<Partial> every_cover(const Sample& sample, Fill fill, std::size_t& judged);

/// The uses carry every line, no group more than its channels and its common current.
void check_cover(const Sample& sample, const MixMember& member);

/// Of the front's members; -1 where it is empty.
std::int64_t least_cost(const MixFront& front);

} // namespace backplate
