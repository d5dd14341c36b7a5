#pragma once

#include <string>
#include <vector>

#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// What the choices of a box leave of the price book.
struct ChosenParts {
    PriceBook book;                  ///< of_kind gives what may be taken, find still knows all
    std::vector<std::string> limits; ///< choices that cannot be followed, in words
};

/// The job that a part does in a panel: parts of the same job stand in for one another. Modules do
/// the same job with the same signals on the same platform, cooling parts at the same stage,
/// relays, terminals, small parts and other devices with the same function; all others by their
/// kind.
std::string job_of(const Part& part);

/// The parts that may be named in the place of one of the panel's under choices.replace, the
/// cheapest first: of its kind, function and platform, for all its signals, and open to choice.
/// None where the engine does not choose parts of its kind.
std::vector<const Part*> stand_ins(const Part& part, const PriceBook& book, const Box& box,
                                   const BidRequest& request);

/// keep: a kept part is the only one of its job; of a module at least so many are taken, others
/// beside it (see MixProblem::keep). replace: the part and all others of its job give way to the
/// one named. Where either belongs to a platform, the others' controllers give way too.
/// in_stock_only: what lies in the own store. prefer_makers, where `preferences` asks for it: of
/// every job that a preferred maker has a part for, the preferred makers' parts only. Parts that
/// the engine may not choose anyway (excluded, without a price …) fill no job.
/// Approvals asked, by the rows of approval_parts that pass parts over: of every job that a part
/// with the approval fits the mains for, those with it only. A part kept or replacing another by
/// name stands whatever it states.
ChosenParts chosen_parts(const PriceBook& book, const Box& box, const BidRequest& request,
                         const RuleBook& rules, bool preferences);

} // namespace backplate
