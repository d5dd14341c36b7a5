#pragma once

#include <string>

#include "pricing/price_list/price_map.h"

namespace backplate {

/// A map of a supplier's price list, `backplate-price-map/1`: JSON with comments, keys format,
/// maker, currency, decimal, dates, lead_unit, columns (heading: meaning), fixed (meaning: value in
/// the form of a parts file), keys (the supplier's: ours), states (the supplier's: ours). All but
/// the format may be absent. Throws BadInput naming `name`, the key and the expectation.
PriceMap read_price_map(const std::string& name, const std::string& text);

/// The map as text that reads back equal.
std::string price_map_text(const PriceMap& map);

} // namespace backplate
