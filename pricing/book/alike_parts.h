#pragma once

#include <cstddef>
#include <vector>

#include "pricing/book/part.h"

namespace backplate {

/// By part the index of the first one that serves a panel alike: equal in all but name, maker and
/// terms of purchase. A part that another one names (accessory, documented combination) is like no
/// other.
std::vector<std::size_t> first_alike(const std::vector<Part>& parts);

} // namespace backplate
