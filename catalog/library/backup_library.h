#pragma once

#include <cstdint>
#include <string>

namespace backplate {

/// Copies a library, also while others have it open or write into it: the copy is the library of
/// one moment. The destination (made, or an ordinary file that is replaced; a link stays one) gets
/// its name when the copy is complete and its pages are sound. Returns the bytes of the copy.
/// Throws BadInput where the destination is a folder or the library itself; OutsideFault where the
/// library cannot be read as one, is damaged, stays locked for `wait_ms`, where another program
/// works on the destination, or where it cannot be written.
std::uintmax_t backup_library(const std::string& library, const std::string& destination,
                              int wait_ms = 10000);

} // namespace backplate
