#pragma once

#include <cstdint>

#include "pricing/values/decimal.h"

namespace backplate {

/// 128 bits for the products between two exact values.
__extension__ typedef __int128 Wide;

/// Throws OverflowError where the value leaves 64 bits.
std::int64_t narrow(Wide value);

/// Rounded quotient; divisor must not be 0.
Wide divide(Wide numerator, Wide divisor, Rounding rounding);

} // namespace backplate
