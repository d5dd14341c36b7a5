#pragma once

#include <optional>
#include <string>
#include <vector>

namespace backplate {

/// The request files that were last opened or saved, the newest first, at most nine; those that
/// are gone are left out; saved jobs by their entries. `list` is the file that holds them; an empty
/// name holds none.
std::vector<std::string> recent_files(const std::string& list);

/// The entry of a saved job among them, which names its library; that library's own job of an
/// entry, "job:3", or nothing.
std::string recent_job(const std::string& place, const std::string& library);
std::optional<std::string> job_of_recent(const std::string& entry, const std::string& library);

/// Puts a file or an entry of a job in front. Cannot fail in a way that matters: a list that cannot
/// be written stays.
void remember_file(const std::string& list, const std::string& file);

} // namespace backplate
