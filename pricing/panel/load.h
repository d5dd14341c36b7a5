#pragma once

#include <vector>

#include "pricing/mix/arrange.h"
#include "pricing/panel/box_facts.h"

namespace backplate {

/// One consumer of the box: what it draws at 24 V and what heat of it stays inside.
struct Consumer {
    std::vector<BasisInput> factors; ///< their product is the current of all pieces, everything on
    double all_on_a = 0;
    double together_a = 0;    ///< with on_together_percent
    double inside_w = 0;      ///< everything on
    double field_a = 0;       ///< share of all_on_a that loads outside the box take
    std::size_t group = 0;    ///< whose supply gives it: 0 main, else 1 + place in BoxFacts::groups
    std::size_t point = none; ///< index of the points line whose on_together counts
    std::vector<BasisInput>
        heat_factors;            ///< their product is inside_w where it is not volts × current
    bool heat_is_current = true; ///< inside_w = volts × all_on_a

    static constexpr std::size_t none = static_cast<std::size_t>(-1);
};

/// Sum over the consumers of a box, before the future load: currents of the main supply alone,
/// heat of all.
struct BoxLoad {
    double all_on_a = 0, together_a = 0, inside_w = 0, field_a = 0;
    BoxLoad& operator+=(const Consumer& consumer);
};

/// Consumers that no choice changes: interfaces, field devices, loops, equipment.
/// Source: climate-and-supply 6 (what leaves through the terminals is no heat).
std::vector<Consumer> fixed_consumers(const BoxFacts& facts, const RuleBook& rules);

/// Group whose supply gives what the outputs of the line switch, their interfaces' coils among it:
/// that of the outputs where they are parted, else the main one.
std::size_t group_of_line(const BoxFacts& facts, std::size_t line);

/// Own current of the chosen devices (controller, heads, feeds, modules, protection, fans) and the
/// input current of the channels carried.
std::vector<Consumer> chosen_consumers(const BoxFacts& facts, const Arrangement& arrangement,
                                       const std::vector<std::pair<const Part*, int>>& others,
                                       const RuleBook& rules);

BoxLoad sum_of(const std::vector<Consumer>& consumers);

/// Currents of the consumers that one group's supply feeds, before the future load; no heat.
BoxLoad sum_of_group(const std::vector<Consumer>& consumers, std::size_t group);

/// Current that a channel of the group draws for the line's signal (inputs only), amperes.
double input_current(const ChannelGroup& group, const Signal& signal);

} // namespace backplate
