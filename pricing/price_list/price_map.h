#pragma once

#include <map>
#include <string>
#include <vector>

namespace backplate {

/// A column of a supplier's price list: its heading and what it holds, a word of list_meanings.
struct ListColumn {
    std::string heading, meaning;
    friend bool operator==(const ListColumn&, const ListColumn&) = default;
};

/// How a supplier's price list is read. What stays empty is found out from the list.
struct PriceMap {
    std::string maker;               ///< the list is of this maker's parts only; empty: of any
    std::string decimal;             ///< "," or "."; empty: found out from the amounts
    std::string dates;               ///< day_first or month_first; empty: found out from the dates
    std::string currency;            ///< of amounts that name none; empty: the price book's
    std::string lead_unit = "days";  ///< days, weeks or working_days
    std::vector<ListColumn> columns; ///< empty: by their headings
    std::map<std::string, std::string, std::less<>> fixed{};  ///< by meaning, for cells left empty
    std::map<std::string, std::string, std::less<>> keys{};   ///< the supplier's key: our key
    std::map<std::string, std::string, std::less<>> states{}; ///< the supplier's word: our state
    friend bool operator==(const PriceMap&, const PriceMap&) = default;
};

} // namespace backplate
