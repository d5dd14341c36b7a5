#pragma once

#include <string>

#include "pricing/request/node.h"

namespace backplate {

/// Whether the product acts on this value of a key of which only some values are acted on; yes for
/// every other key. Keys that are for later as a whole are marked in the rows of `defaults`.
bool is_acted_on(const std::string& key, const Node& value);

} // namespace backplate
