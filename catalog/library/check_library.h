#pragma once

#include <string>
#include <vector>

namespace backplate {

/// What is wrong with a library file, in plain words: pages, references, versions (no two of a
/// name at one issue, no gap in the change sets), rows that cannot be read, rules that make no
/// rule book. Empty: sound. Changes nothing. Throws OutsideFault where the file cannot be opened
/// as a library.
std::vector<std::string> check_library(const std::string& path);

} // namespace backplate
