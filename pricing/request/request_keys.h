#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "pricing/book/rule_book.h"

namespace backplate {

/// A key of a request with the keys below it. What a list holds has the keys of the list.
struct RequestKey {
    std::string name; ///< last step of the key; "{signal}" stands for any signal
    DefaultRow row;
    std::vector<RequestKey> below; ///< in the order of the rows

    const RequestKey* find(std::string_view step) const;
};

/// The rows of `defaults` as a tree, with the origin that a take-off writes beside points. The
/// root has no name and the type object.
RequestKey request_keys(const RuleBook& rules);

/// One step of a key as the rows write it: "points[]" is the list `points`.
struct KeyStep {
    std::string name;
    bool list = false;
};
std::vector<KeyStep> key_steps(std::string_view key);

} // namespace backplate
