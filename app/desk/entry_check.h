#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "pricing/book/rule_book.h"
#include "pricing/request/bid_request.h"

namespace backplate {

/// The faults that a change brought into a request: those of `after` that `before` has not.
std::vector<RequestFault> new_faults(const Node& before, const Node& after, const RuleBook& rules,
                                     Date today);

/// Whether a fault at `where` is about the value at `place`: it stands there, in what holds the
/// value, or inside it.
bool is_about(const std::string& where, const std::string& place);

/// Why a change of the value at `place` cannot be taken: the first new fault about it.
std::optional<std::string> refusal(const Node& before, const Node& after, const std::string& place,
                                   const RuleBook& rules, Date today);

/// The key of `defaults` that a pointer of the request falls under: "/boxes/0/site/altitude_m" ->
/// "boxes[].site.altitude_m".
std::string default_key(const std::string& pointer);

/// What the value at a pointer takes, in words, with unit and range; empty where no row says it.
std::string expected_at(const std::string& pointer, const RuleBook& rules);

/// The signal that a text names: its key in any case, a spelling of the rules, or a beginning that
/// only one has (underscores do not count). Otherwise nothing, with the keys that it may be.
struct NamedSignal {
    std::string signal;
    std::vector<std::string> candidates; ///< more than one: it may be each of them
};
NamedSignal named_signal(const std::string& text, const RuleBook& rules);

} // namespace backplate
