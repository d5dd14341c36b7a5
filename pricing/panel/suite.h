#pragma once

#include <cstdint>

#include "pricing/book/rule_book.h"

namespace backplate {

struct Part;

/// Equal enclosures or plates that stand side by side as one panel; mostly a single one, which any
/// part is by itself.
struct Suite {
    Suite() = default;
    Suite(const Part& each, int so_many = 1) : part(&each), pieces(so_many) {}
    Suite(const Part&& gone, int so_many = 1) = delete; ///< the part outlives the suite

    const Part* part = nullptr;
    int pieces = 1;

    const Part& operator*() const { return *part; }
    const Part* operator->() const { return part; }
    int joints() const { return pieces - 1; }
};

/// How many enclosures of the part may stand side by side, at least 1: rows of the table suites.
int most_in_suite(const Part& enclosure, const RuleBook& rules);

/// Heat of the fullest enclosure of a suite against an even share of the whole; 1 for a single one.
double heat_of_fullest(const Suite& suite, const RuleBook& rules);

} // namespace backplate
