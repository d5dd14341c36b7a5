#pragma once

#include "catalog/library/library.h"

namespace backplate {

// Writing saved jobs. Each belongs into a transaction of the caller.

int next_job_number(SQLite::Database& database);

/// Writes what differs between the job as it stands (null: none) and as it is wanted. States are
/// only added. The triggers of the schema refuse a change of what was sent.
void write_job(SQLite::Database& database, const Job* before, const Job& after);

} // namespace backplate
