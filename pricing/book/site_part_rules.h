#pragma once

#include <string>
#include <vector>

#include "pricing/book/rule.h"

namespace backplate {

/// A line between a box and its controller, by its medium.
struct LinkRow {
    std::string medium;
    Rule most_m;                     ///< without a repeater
    std::string part_kind, function; ///< part at each end; no kind: none
};

/// When a box takes a surge arrester for each of its feeds, and what stands before it.
struct SurgeRow {
    std::string key, condition;
    std::string part_kind;
    std::vector<std::string> functions; ///< of the arrester, any of them
    OptionalRule breaker_a; ///< largest breaker before it; absent: the incoming device protects it
};

/// Of which kinds of parts an approval is asked.
struct ApprovalRow {
    std::string key, approval;
    std::vector<std::string> kinds;
    bool pass_over = false; ///< parts that do not state it give way to those that do
};

} // namespace backplate
