#pragma once

#include <cstdint>
#include <vector>

#include "pricing/cost/labour.h"
#include "pricing/panel/box_facts.h"
#include "pricing/panel/housing.h"

namespace backplate {

struct BillItem;
struct PanelDesign;
struct SearchFacts;

/// A row with the part that serves it.
struct SmallPart {
    const SmallPartRow* row = nullptr;
    const Part* part = nullptr;
};

/// Field cables that take the same gland, or share entry plates.
struct GlandCount {
    SmallPart gland;
    std::int64_t cables = 0;
    double least_mm = 0, most_mm = 0; ///< diameters of the cables
};

/// Small parts of a box that are lines of its bill, found once: no choice of a panel changes which.
struct SmallParts {
    std::vector<SmallPart> lines;    ///< counted by anything but cables
    std::vector<SmallPart> glands;   ///< by the greatest diameter
    std::vector<GlandCount> cables;  ///< field cables by gland
    std::int64_t without_gland = 0;  ///< field cables that no gland of the rows and parts takes
    std::int64_t on_plates = 0;      ///< field cables on entry plates
    std::int64_t plates = 0;         ///< entry plates, each with one rectangular opening
    std::int64_t bridged = 0;        ///< terminals on a common side
    std::vector<const Rule*> shares; ///< percent that the sundries fall by, one a group
    std::vector<const SmallPartRow*> left; ///< rows without a part: covered by the sundries
};

/// Rows whose condition holds, each with the cheapest part of its kind and function that may be
/// chosen. A row whose function the request names among its equipment is no line: it is there
/// already. Glands only where an enclosure is prepared; field cables share entry plates where
/// these with their openings cost less than the glands with theirs.
SmallParts small_parts(const PriceBook& book, const BoxFacts& facts, const Housing& housing,
                       const LabourPlan& plan);

/// Adds the small parts that the design asks for by its counts. Never fewer where a count grows.
/// `feeds`: with the glands of the feeds' cables, whose conductor must be known.
void add_small_parts(PanelDesign& design, const SearchFacts& search, bool feeds);

/// Outer diameter of a cable of so many cores, mm: bundle × core + 2 × sheath. Nothing where no row
/// holds so many cores. Source: electrical-facts 4 (general estimate).
std::optional<double> cable_diameter(const RuleBook& rules, const CableRow& row, int cores);

/// What the field cables take: their glands, or of each row of entry plates as many as they fill or
/// one more, by what costs least with the work on the openings. Plates of several rows are not
/// mixed. `prices` in ten-thousandths for all boxes.
std::vector<GlandCount> cheapest_entry(const std::vector<GlandCount>& glands,
                                       const std::vector<SmallPart>& plates, int boxes,
                                       const LabourPlan& plan);

/// The first gland that takes the diameter; null where none does.
const SmallPart* gland_for(const std::vector<SmallPart>& glands, double diameter_mm);

} // namespace backplate
