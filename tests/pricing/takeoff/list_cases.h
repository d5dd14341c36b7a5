#pragma once

#include <string>

#include "catalog/cells/table.h"
#include "pricing/takeoff/take_off.h"

namespace backplate::tests {

/// Headings, spellings and words of the starter rules.
const RuleBook& starter_rules();

/// A list file of the test tree, read and taken off.
struct ReadList {
    ReadSheet read;
    Takeoff takeoff;
};
ReadList read_list(const std::string& path);

/// A list written as text.
Takeoff take_off_text(const std::string& text);

} // namespace backplate::tests
