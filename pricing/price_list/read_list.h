#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "pricing/book/part_fields.h"
#include "pricing/price_list/list_columns.h"

namespace backplate {

/// A field of a part with the cell that it is to hold, in the program's own form.
using FieldCell = std::pair<const PartField*, std::string>;

/// One line of a supplier's list, understood but not yet compared.
struct ListOffer {
    int row = 0; ///< of the file, from 1
    std::string key, alias, maker;
    std::string successor;      ///< key as the list writes it
    std::optional<Money> price; ///< list or net price of `price_of` pieces; empty: on request
    std::string currency;       ///< what the line or its heading names; empty: nothing
    int price_of = 1;           ///< pieces that the price is of
    bool of_pack = false;       ///< the line says that the price is of a pack
    bool net = false;           ///< no discounts come off it
    std::vector<FieldCell> fields;
};

/// A supplier's list as it was read.
struct PriceList {
    std::vector<ListOffer> offers;
    PriceMap map; ///< with everything that was found out: columns, decimal mark, order of dates
    std::vector<std::string> unused; ///< headings that nothing was read from
};

/// Understands the rows of a list; `row_numbers` are their places in the file. Rows without a key,
/// and rows that hold nothing but the key (headings of groups), are left out. Throws BadInput
/// naming `name`, row, column and expectation of the first cell that cannot be read.
PriceList read_price_list(const std::string& name, const std::vector<ListCells>& rows,
                          const std::vector<int>& row_numbers, const PriceMap& map,
                          const ListRules& rules);

} // namespace backplate
