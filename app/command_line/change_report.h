#pragma once

#include <string>
#include <vector>

#include "catalog/library/versions.h"

namespace backplate {

/// "1 new, 2 changed, 0 ended, 90 unchanged parts; change set 5", or as JSON.
void print_change(const ChangeSummary& summary, const char* rows, bool json);

/// What a check found, a line each and last the judgement, or as JSON. Returns the exit status.
struct CheckReport {
    std::string sound;                ///< said where nothing was found: "93 parts, complete"
    std::vector<std::string> faults;  ///< make the status not_as_asked
    std::vector<std::string> remarks; ///< worth knowing, no faults
};
int print_check(const CheckReport& report, bool json);

/// "93 parts written to DIR", or as JSON.
void print_export(std::size_t count, const char* rows, const std::string& directory, bool json);

} // namespace backplate
