#pragma once

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "pricing/job/saved_job.h"

namespace backplate {

/// What a command did with a job: number, title, state, revision, price and what it says beside,
/// in one line, or as JSON with `more` added.
void print_job(const Job& job, const std::string& said, bool json,
               const nlohmann::ordered_json& more = nlohmann::ordered_json::object());

/// A text, empty: null.
nlohmann::ordered_json text_or_null(const std::string& text);

/// "(no title)" for none.
std::string shown_title(const std::string& title);

/// Writes what was sent into the folder, which is made where it is absent: documents, request,
/// estimate and used rows, byte for byte. Returns the paths.
std::vector<std::string> write_as_sent(int job, const JobRevision& revision,
                                       const std::string& folder);

} // namespace backplate
