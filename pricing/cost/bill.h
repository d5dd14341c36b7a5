#pragma once

#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/panel_design.h"

namespace backplate {

/// One kind of box with what it takes.
struct BoxBill {
    const Box* box = nullptr;
    const std::vector<BillItem>* items = nullptr;
    std::vector<const Rule*> shares = {}; ///< percent that the sundries fall by
};

/// The printed bill of a job, one kind of box after the other: every line rounded once to the
/// currency's digits, a net unit price once to four decimals; the sundries after the goods of a
/// box, then the charges. A line without a price keeps nothing, not 0. Packs and minimum orders
/// count over the job; their rest stands at the first line of the part. Source: trade-practice 4.1.
std::vector<BillLine> bill_lines(const std::vector<BoxBill>& boxes,
                                 const std::vector<LabourLine>& labour, const BidRequest& request,
                                 const RuleBook& rules, int digits);

/// Line amounts, sundries and charges again, from quantities and net unit prices as they stand: the
/// cost step over a frozen design.
void reprice(std::vector<BillLine>& lines, const std::vector<LabourLine>& labour,
             const BidRequest& request, const RuleBook& rules, int digits);

/// Pieces to order for a need: whole packs, not below the minimum order.
std::int64_t pieces_to_buy(const Part& part, std::int64_t need);

/// Basis of unit prices and sundries. `book` holds the list prices before the exchange, null for
/// none.
void record_bill(const std::vector<BillLine>& lines, const std::vector<BoxBill>& boxes,
                 const PriceBook& book, const ExchangeRate* exchange, const RuleBook& rules,
                 Recorder& recorder);

Money material_of(const std::vector<BillLine>& lines);

} // namespace backplate
