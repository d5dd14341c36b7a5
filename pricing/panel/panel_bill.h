#pragma once

#include "pricing/panel/candidate.h"

namespace backplate {

/// Lines of the bill that hours are counted for: small parts are taken from the store together with
/// the sundries, whose line stands for all of them.
int lines_with_work(const PanelDesign& design);

/// Adds the terminals of every article.
void add_terminals(PanelDesign& design);

/// Metres of the wires counted, whole ones; 0 where no row says how long a wire is.
std::int64_t wire_metres(std::int64_t wires, const SearchFacts& search);

/// Adds the wires: those of the incoming conductor and of the 24 V side of the supplies are among
/// those counted, the plain wire serves the others.
void add_wires(PanelDesign& design, const SearchFacts& search);

/// Adds pieces of an article; nothing where there is none.
void add_item(PanelDesign& design, const Part* part, std::int64_t quantity);

/// Adds enclosure, rail and duct, and puts the bill in its order: the enclosure first, then the
/// devices, rail and duct before the wires, equipment by text last.
void complete_bill(PanelDesign& design, const SearchFacts& search);

} // namespace backplate
