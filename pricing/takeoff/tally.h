#pragma once

#include <map>
#include <string>

#include "pricing/takeoff/list_answers.h"

namespace backplate {

int sum_of(const SignalCounts& counts);
SignalCounts times(SignalCounts counts, int pieces);

/// What the points of a kind, as the heading of a column names it, come to among signals: DI holds
/// every digital input, AI every analogue one and, where they have no column of their own, the
/// temperatures.
int sum_of_kind(const SignalCounts& counts, const std::string& kind,
                const std::map<std::string, int>& columns);

/// Rows seen so far, to compare with a total of the list.
class Tally {
public:
    enum class Was { counted, spare, deleted, other };

    void add(Was was, int points);
    void add_kind(const std::string& title, Was was, int points);

    /// Whether a total is one that the rows give: the counted ones alone, with spares, with deleted
    /// ones, with all; of the whole list or since the last total.
    bool gives(int total) const;
    bool kind_gives(const std::string& title, int total) const;
    int counted() const { return sums_[0]; }
    int counted_of(const std::string& title) const;
    void close_part();

private:
    static constexpr int ways = 4;
    using Sums = int[ways];
    static bool adds_up(const Sums& sums, int total);

    Sums sums_{}, at_part_{};
    struct KindSums {
        Sums sums{};
    };
    std::map<std::string, KindSums> kinds_;
};

} // namespace backplate
