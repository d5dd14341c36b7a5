#pragma once

#include <optional>
#include <vector>

#include "catalog/library/library.h"

namespace backplate {

constexpr int first_version_with_jobs = 2; ///< of the schema

// Reading saved jobs. Each belongs into a transaction of the caller, and throws OutsideFault naming
// what cannot be read. A library of schema 1 holds none.

std::vector<JobHead> read_heads(SQLite::Database& database);
std::optional<Job> read_job(SQLite::Database& database, int number);

} // namespace backplate
