#pragma once

#include <vector>

#include "pricing/panel/candidate.h"

namespace backplate {

/// So many times the value of a row.
struct CountTerm {
    std::int64_t count = 0;
    const Rule* rule = nullptr;
};

/// Terminals of the field wiring: channels wired direct, through an interface, and fitted beyond
/// the requirement (these as the dearest line of their kind). Source: electrical-facts 8.
std::vector<CountTerm> signal_terminal_terms(const PanelDesign& design, const SearchFacts& search);
/// Terminals that the box and its devices bring.
std::vector<CountTerm> device_terminal_terms(const PanelDesign& design, const SearchFacts& search);
/// Inside wires of channels, devices and box.
std::vector<CountTerm> wire_terms(const PanelDesign& design, const SearchFacts& search);

/// Terminals of the bill by part: the plain one first, then those of a function of their own. Their
/// sum is the number of terminals, less those of the feeds before the incoming device is chosen.
std::vector<TerminalCount> terminal_counts(const PanelDesign& design, const SearchFacts& search);

/// Sum of count × value in ten-thousandths of a piece.
std::int64_t piece_steps(const std::vector<CountTerm>& terms);

} // namespace backplate
