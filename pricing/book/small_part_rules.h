#pragma once

#include <string>

#include "pricing/book/rule.h"

namespace backplate {

/// A small part that is a line of the bill where the price book has it, and is covered by the
/// sundries where it has none.
struct SmallPartRow {
    std::string key, part_kind, function;
    std::string driver;       ///< box, feed, device, terminal, strip, bridge, wire or cable
    Rule pieces;              ///< for `per` of what is counted
    Rule per;                 ///< counted pieces that so many parts serve
    OptionalRule from, up_to; ///< cable: diameters that the part takes, mm; with `per` above 1 the
                              ///< part is an entry plate
    std::string condition;    ///< always, or terms key=value joined by "and"
    std::string group;        ///< rows that share `of_sundries`
    OptionalRule of_sundries; ///< percent that the sundries fall by where the group has a line
};

/// The cable of a channel, or of a feed by the size of its conductor.
struct CableRow {
    std::string key;         ///< "DI contact"; of a feed: any
    double section_mm2 = 0;  ///< largest conductor of the feed; 0: cable of a channel
    Rule cores;              ///< of one channel; 0: no field cable
    Rule core_mm, sheath_mm; ///< diameter of a core; thickness of sheath and screen
    Rule bridged;            ///< terminals of one channel on a common side
};

/// Diameter of so many cores laid together, in core diameters.
struct BundleRow {
    int cores = 0;
    Rule factor;
};

} // namespace backplate
