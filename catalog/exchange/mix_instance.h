#pragma once

#include <string>

#include "pricing/mix/bare_mix.h"

namespace backplate {

/// A bare module-mix problem ("io-mix-1"): whole numbers, items that come later than the longest
/// time allowed left out. Throws BadInput naming `name` and the JSON pointer of what is wrong.
BareMix read_mix_instance(const std::string& name, const std::string& text);

} // namespace backplate
