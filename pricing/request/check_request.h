#pragma once

#include <optional>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

struct CheckedRequest {
    std::optional<BidRequest> request; ///< nothing where there are faults
    std::vector<RequestFault> faults;
};

/// Checks a tree as sent against the rows of `defaults`, `words` and `signals`, fills in what is
/// absent and says which assumptions that makes. `today` stands in for an absent job.date.
/// Keys that the product does not act on yet are a fault unless they hold their default.
CheckedRequest check_request(const Node& sent, const RuleBook& rules, Date today);

/// The faults of a tree as sent alone, nothing filled in: those of `check_request` but for what its
/// options would change. They stand in the order of their places.
std::vector<RequestFault> faults_as_sent(const Node& sent, const RuleBook& rules, Date today);

/// The nearest of the words by edit distance, for messages; empty where nothing is near.
std::string nearest_word(const std::string& word, const std::vector<std::string>& words);

} // namespace backplate
