#pragma once

#include <string>

namespace backplate {

/// `library changes`: a line for every change set, or as JSON. Returns the exit status.
int print_change_sets(const std::string& path, bool json);

/// `library undo NUMBER`. Where it is refused the reason goes to standard error and the status is
/// not_as_asked. Throws BadInput where `number` is no whole number or no change set.
int undo_change(const std::string& path, const std::string& number, bool json);

} // namespace backplate
