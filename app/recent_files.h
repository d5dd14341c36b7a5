#pragma once

#include <string>
#include <vector>

namespace backplate {

/// The request files that were last opened or saved, the newest first, at most nine; those that
/// are gone are left out. `list` is the file that holds them; an empty name holds none.
std::vector<std::string> recent_files(const std::string& list);

/// Puts a file in front. Cannot fail in a way that matters: a list that cannot be written stays.
void remember_file(const std::string& list, const std::string& file);

} // namespace backplate
