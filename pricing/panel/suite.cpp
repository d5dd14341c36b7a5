#include "pricing/panel/suite.h"

#include <algorithm>

#include "pricing/book/part.h"

namespace backplate {

int most_in_suite(const Part& enclosure, const RuleBook& rules) {
    const SuiteRules& suites = rules.suites;
    const OptionalRule& allowed =
        enclosure.mounting == "floor" ? suites.floor_enclosures : suites.wall_boxes;
    if (enclosure.kind != "enclosure" || !allowed || allowed->number() == 0) return 1;
    return std::max(1, suites.most ? static_cast<int>(limit_in(suites.most->number(), 1)) : 1);
}

double heat_of_fullest(const Suite& suite, const RuleBook& rules) {
    const OptionalRule& row = rules.suites.heat_of_fullest_percent;
    return suite.pieces > 1 && row ? row->number() / 100 : 1;
}

} // namespace backplate
