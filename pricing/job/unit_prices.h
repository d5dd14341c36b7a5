#pragma once

#include <vector>

#include "pricing/job/estimate.h"
#include "pricing/panel/choose_panel.h"

namespace backplate {

/// Price of one more point of every signal of the box, in one box: terminals, wires, interface,
/// tag, software and works test of one channel, and with a module also the module that carries the
/// signal now (or the cheapest that could), its place on the sheets, its wires and mounting. Direct
/// cost × (price − rounding) ÷ direct cost of the job, so contingency, overhead, margin and
/// concession are those of the job. Nothing of a supply, an enclosure or further spare. Source:
/// trade-practice 1.2.
std::vector<UnitPrice> unit_prices(const PanelChoice& choice, const PriceResult& price);

void record_unit_prices(const std::vector<UnitPrice>& prices, const PriceResult& price,
                        Recorder& recorder);

} // namespace backplate
