#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "pricing/book/price_book.h"
#include "pricing/book/rule_book.h"
#include "pricing/job/estimate.h"

namespace backplate {

/// What the sentences of the offer are about: a sized and priced job, seen from one of its boxes.
struct OfferView {
    const Estimate& estimate;
    const Box& box;
    const BoxResult& result; ///< of that box
    const PriceBook& book;
    const RuleBook& rules;
};

/// The word or number of a condition's fact ("scope.drawings", "has.spare", "feeds"); a scope word
/// is the request's own, so not_stated stays. Empty where there is no such fact.
std::string offer_fact(const OfferView& view, std::string_view key);

/// The text that stands for {name}: a value of the job in its own units, or a row of the table
/// `offer_figures`. "not stated" where the job leaves it open.
std::string offer_value(const OfferView& view, const std::string& name);

/// The sentences whose conditions hold, in the order of the table. A sentence that is the same for
/// every box stands once without a box.
std::vector<OfferText> offer_texts(const Estimate& estimate, const PriceBook& book,
                                   const RuleBook& rules);

} // namespace backplate
