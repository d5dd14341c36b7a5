#pragma once

#include <string>

#include "pricing/values/document_units.h"

namespace backplate {

/// A conductor as its table names it ("1.5 mm²", "14 AWG", "2/0 AWG"); where the document uses the
/// other system, followed by its equivalent: the cross-section of the gauge, or the smallest gauge
/// of at least that cross-section. Areas by the definition of the gauge, ASTM B258:
/// diameter = 0.127 mm × 92^((36 − n) / 39). A text of neither form stays as it is.
std::string conductor_text(const std::string& size, bool inch);

} // namespace backplate
