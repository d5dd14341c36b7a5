#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "pricing/values/money.h"

namespace backplate {

/// A line of a costed job: pieces of an article, or hours of an activity.
struct PricedLine {
    std::string box;           ///< empty: the job
    std::string item;          ///< part or its text, with its role; activity
    std::string text;          ///< in words
    std::int64_t quantity = 0; ///< pieces of all boxes; thousandths of an hour
    std::optional<Money> unit; ///< net price or rate; nothing: unknown, or a lump sum
    Money amount;              ///< of all boxes, as printed; 0 where no price is known
    std::string part{};        ///< its key; empty: none of the price book
};

/// A costed job as far as its price is compared; amounts as printed, to `digits`.
struct PricedJob {
    std::string currency;
    int digits = 2;
    std::vector<PricedLine> bill, labour;
    Money freight, contingency, overhead, margin, concession, rounding, price;
};

/// Whether the lines and the chain add up to the price: lines + freight + contingency + overhead
/// + margin − concession + rounding.
bool adds_up(const PricedJob& job);

enum class LineChange { gone, added, quantity, price, quantity_and_price };
const char* change_word(LineChange change);

/// What changed on one line; before + by_quantity + by_price = after, gone and new lines by
/// quantity.
struct ComparedLine {
    LineChange change = LineChange::price;
    std::string box, item, text;
    std::int64_t quantity_before = 0, quantity_after = 0;
    std::optional<Money> unit_before, unit_after;
    Money before, after, by_quantity, by_price;
    std::string part{};
    Money difference() const { return after - before; }
};

/// A part of the price chain; a concession counts negative.
struct ComparedStep {
    const char* name = "";
    Money before, after;
    Money difference() const { return after - before; }
};

struct Comparison {
    std::vector<ComparedLine> bill, labour; ///< changed lines alone, in the order of the later job
    std::vector<ComparedStep> chain;        ///< freight to rounding, each
    Money before, after;                    ///< the prices
    /// Of the lines and the chain; equal to after − before where both jobs add up.
    Money sum() const;
};

/// The later job beside the earlier one; lines of the same box and item belong together, repeated
/// ones in their order. The change by quantity is the earlier amount in proportion, rounded half
/// away from zero; the rest is by price. Throws std::invalid_argument for two currencies.
Comparison compare(const PricedJob& before, const PricedJob& after);

} // namespace backplate
