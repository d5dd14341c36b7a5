#pragma once

#include <string>
#include <vector>

namespace backplate {

/// Throws BadInput: "'VC-2O2' is no part of the price book; nearest: VC-202". Without a near name
/// all are told where they are few.
[[noreturn]] void refuse_unknown(const std::string& name, const std::string& what,
                                 const std::vector<std::string>& names);

} // namespace backplate
