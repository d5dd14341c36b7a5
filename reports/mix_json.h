#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pricing/mix/bare_mix.h"

namespace backplate {

/// What was found for one family of an instance.
struct FamilyAnswer {
    std::string family;
    BareAnswer answer;
    std::optional<std::vector<std::array<std::int64_t, 4>>> tradeoffs; ///< not asked, or not ended
};

/// One line of JSON for an instance: the best family with its items, every family with status and
/// cost, its tradeoffs where asked (null: the steps ended first) and the seconds where given.
std::string mix_line(const BareMix& mix, const std::vector<FamilyAnswer>& answers,
                     bool with_tradeoffs, std::optional<double> seconds);

} // namespace backplate
