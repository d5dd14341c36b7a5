#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// An article that a supplier is to be asked for, over all boxes of the job.
struct EnquiryLine {
    std::string maker, part, description; ///< maker, part empty: not named
    std::string unit = "piece";
    std::int64_t needed = 0;
    std::int64_t to_buy = 0; ///< in whole packs, at least the minimum order
    int pack = 1, minimum_order = 1;
    std::string reason; ///< why the price does not hold
};

/// The lines of the bill without a valid price on the job's date: none at all, ended, older than
/// the limit of the finding PRICE_OLD, or an allowance; by maker and part. Free issue, sundries and
/// charges are no article to buy and are left out.
std::vector<EnquiryLine> enquiry_lines(const Estimate& estimate, const PriceBook& book,
                                       const RuleBook& rules);

} // namespace backplate
