#pragma once

#include <string>

#include "catalog/cells/list_file.h"
#include "pricing/takeoff/take_off.h"

namespace backplate::tests {

/// Headings, spellings, words and assemblies of the starter rules.
const RuleBook& starter_rules();

/// A list file of the test tree, read and taken off.
struct ReadList {
    ListFile file;
    Takeoff takeoff;
};
ReadList read_list(const std::string& path, const TakeoffWish& wish = {});

/// A list written as text.
Takeoff take_off_text(const std::string& text, const TakeoffWish& wish = {});

} // namespace backplate::tests
