#pragma once

#include <cstddef>
#include <optional>
#include <string>

#include "pricing/book/rule_book.h"
#include "pricing/request/node.h"
#include "pricing/values/date.h"

namespace backplate {

/// Whether the job follows the practice of North America: what was sent decides, else the shop.
bool follows_north_america(const Node& sent, const RuleBook& rules);

/// What a key takes where it is absent, by the rows of `defaults`: a literal, the day, the value
/// of another rule row, or a column of the signal table.
class DefaultValues {
public:
    DefaultValues(const RuleBook& rules, bool north_america, Date today)
        : rules_(rules), north_america_(north_america), today_(today) {}

    /// `owner` is the object that lacks the key, `index` its place where it stands in a list.
    /// Nothing where the key is required.
    std::optional<Node> value(const DefaultRow& row, const Node& owner, std::size_t index) const;
    /// As the row writes it for the job's practice.
    const std::string& text(const DefaultRow& row) const {
        return north_america_ ? row.default_north_america : row.default_iec;
    }

private:
    Node of_signal(const std::string& column, const Node& owner) const;

    const RuleBook& rules_;
    bool north_america_;
    Date today_;
};

} // namespace backplate
