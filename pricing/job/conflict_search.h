#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <vector>

namespace backplate {

/// By limit: true where it holds, false where it is lifted.
using Imposed = std::vector<bool>;

/// Which limits stand against each other.
struct Conflict {
    bool without_any = false;          ///< nothing builds even with every limit lifted
    std::vector<std::size_t> together; ///< cannot be met together, whatever else is lifted
    bool smallest = false;             ///< no set of fewer limits is as hard: proven
    std::vector<std::size_t> alone;    ///< each: with it lifted and all others held it builds
    std::vector<std::size_t> give_up;  ///< with these lifted and all others held it builds
    int runs = 0;                      ///< questions asked of `builds`
};

/// The smallest set of limits that cannot be met together, where nothing builds with all of them.
/// `builds` says whether something builds under the limits imposed; a lifted limit never makes it
/// harder. First every limit is lifted alone: those with which it then builds belong to every such
/// set, and where they are enough they are the only one. Else the smallest set that takes a limit
/// out of every known set to give up is asked, and where it builds, it is filled up to another set
/// to give up (Liffiton and Sakallah 2008; Ignatiev and others 2015: hitting sets). After
/// `most_runs` questions the limits are dropped one by one as long as nothing builds: then no limit
/// of the set is idle, but a set of fewer limits may exist.
Conflict smallest_conflict(std::size_t limits, const std::function<bool(const Imposed&)>& builds,
                           int most_runs);

/// The fewest equal parts, 2 to `most`, of which `builds` builds each, where one more part makes
/// nothing harder: by doubling, then by halving what lies between. One part fewer was asked too,
/// but for one alone. Nothing where even `most` are not enough.
std::optional<int> fewest_parts(int most, const std::function<bool(int)>& builds);

} // namespace backplate
