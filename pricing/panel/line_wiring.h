#pragma once

#include <string>
#include <vector>

#include "pricing/panel/box_facts.h"

namespace backplate {

/// Terminals and wires of one channel of the line, direct and through its interface; what the rules
/// lack is added to `limits` in words.
/// Direct: the row "SIGNAL WIRING fed" where the box feeds the device and there is one, else
/// "SIGNAL WIRING". Through an interface: the row "SIGNAL WIRING VIA", or "SIGNAL VIA" where the
/// wiring is the signal's usual one, else the direct row and the change of the interface.
/// Source: electrical-facts 8.
LineWiring line_wiring(const DemandLine& line, const RuleBook& rules,
                       std::vector<std::string>& limits);

/// Ten-thousandths of a piece: values per channel may have decimals (1.3 wires).
constexpr std::int64_t steps_per_piece = 10'000;
/// The value of a row in them, rounded up.
std::int64_t piece_steps(const Rule& rule);
/// The nearest whole number of pieces.
int whole_pieces(std::int64_t steps);
/// Sum of the rows in ten-thousandths of a piece.
std::int64_t piece_steps(const std::vector<const Rule*>& rows);

} // namespace backplate
