#pragma once

#include <string>
#include <vector>

#include "pricing/panel/box_facts.h"
#include "pricing/panel/suite.h"

namespace backplate {

/// What the devices of a box are built on or into, as `choices.enclosure` says.
struct Housing {
    std::vector<Part> given;       ///< plates of the client; what is not known stays empty
    std::vector<Suite> candidates; ///< enclosures and plates that may be taken, alone or as a suite
    bool bought = true;            ///< stands on the bill
    bool walls_known = true;       ///< size and material are known, so heat has a verdict
    bool prepared = true;          ///< brings the hours of preparing an enclosure
};

/// choose, part: enclosures of the price book by mark, material and size, alone and as suites.
/// plate_only: its bare
/// plates. existing_plate: the plate stated. by_client: the plate sizes of the price book's
/// enclosures, the smallest that serves is the plate needed.
Housing housing_of(const PriceBook& book, const BoxFacts& facts);

/// May the enclosure be taken, its outer size apart.
bool usable_enclosure(const Part& part, const BoxFacts& facts);
/// Does it stay within the size stated by the site, a suite with the width of all.
bool within_size(const Suite& enclosure, const Site& site);
/// Why there is no candidate, in words.
std::string no_candidate_text(const PriceBook& book, const Box& box, const RuleBook& rules);

/// Net price of all, 0 for what the client has; ten-thousandths.
std::int64_t price_of(const Suite& enclosure);
/// Area of the mounting plates, mm².
double plate_area(const Suite& enclosure);

} // namespace backplate
