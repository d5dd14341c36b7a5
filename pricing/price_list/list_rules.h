#pragma once

#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "pricing/book/rule_tables.h"
#include "pricing/values/money.h"

namespace backplate {

/// What a column of a price list may hold: part, alias (a second key, tried after the first),
/// maker, description, list, net (one of the two), discount_percent, price_unit (pieces that the
/// price is of), currency, price_date, valid_until, pack, minimum_order, lead_days, state,
/// successor.
std::span<const std::string_view> list_meanings();
bool is_list_meaning(std::string_view word);

struct ListSpelling {
    std::string meaning, text;
};

/// What the rule tables say about price lists. An absent row of price_list_limits is no limit.
struct ListRules {
    std::vector<ListSpelling> spellings;
    std::set<std::string, std::less<>> currencies;
    std::string currency; ///< the price book's
    std::optional<Percent> dearer, cheaper, pack;

    /// Whether the text is spelled as a row of this meaning says, case and marks apart.
    bool says(std::string_view meaning, std::string_view text) const;
};

ListRules read_list_rules(const RuleTables& tables);

} // namespace backplate
