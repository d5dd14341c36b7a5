#pragma once

#include <string>

namespace backplate {

/// What a reason word asks, warns or leaves out, as a person reads it: "type_blank" -> "the type
/// is blank"; the word itself where it has no phrase.
std::string takeoff_reason(const std::string& reason);

} // namespace backplate
