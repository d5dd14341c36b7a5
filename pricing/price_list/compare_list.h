#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/price_list/read_list.h"

namespace backplate {

/// What a price list says about a part, or a part about the list.
enum class ListOutcome {
    dearer,
    cheaper,
    unchanged,
    first_price,  ///< the part had no price
    discontinued, ///< is no longer made, says the list
    suspicious,   ///< see reasons
    unclear,      ///< which part is meant cannot be told; never applied
    fresh,        ///< no such part; never added
    gone          ///< a part of a maker of the list that the list does not hold
};
inline constexpr auto outcome_words = std::array<std::string_view, 9>{
    "dearer",     "cheaper", "unchanged", "first_price", "discontinued",
    "suspicious", "unclear", "new",       "gone"};

struct ListLine {
    ListOutcome outcome = ListOutcome::unchanged;
    int row = 0;                        ///< of the file; 0: gone
    std::string key, part;              ///< the list's; ours, empty where there is none
    std::string description;            ///< ours
    std::optional<Money> before, after; ///< net price of one piece
    std::optional<Percent> change;      ///< of the price before, one decimal
    std::vector<std::string> reasons;   ///< of what is suspicious or unclear, or the successor
    std::vector<std::string> fields;    ///< keys of the fields that would change
    bool applicable = false;            ///< a price of ours can follow from it
    std::optional<Part> part_after;     ///< where applicable and something changes
};

struct OutcomeSum {
    int lines = 0;
    Money before, after; ///< of applicable lines that have both prices, a piece of each
};

struct ListComparison {
    std::vector<ListLine> lines; ///< in the order of the list, then gone ones by key
    std::array<OutcomeSum, outcome_words.size()> sums;
};

/// Compares the offers with the parts. A key is matched as it stands, by the map's keys, by the
/// second key, then without case, blanks and hyphens; more than one part, or one part in several
/// lines, is unclear. The net price per piece is compared. Suspicious: a change beyond the limits
/// of the rules, a price near that of the whole pack, or stated per pack, another currency than the
/// price book's, no price, a price of 0, a day before the one held, an end before its day, another
/// maker. Without a price, at 0 and in another currency nothing is applicable; a line that calls a
/// part discontinued needs no price, and then changes its state and successor alone. A successor
/// that is no part is told and left out. Gone lines hold the part as a discontinued one.
ListComparison compare_list(const PriceList& list, const std::vector<Part>& parts,
                            const ListRules& rules);

/// Which lines are taken besides those that a price list is sure of.
struct ListChoice {
    bool suspicious = false;
    bool gone = false; ///< parts that the list leaves out become discontinued
};

/// The parts to put into the price book.
std::vector<Part> parts_to_put(const ListComparison& comparison, const ListChoice& choice);

} // namespace backplate
