#pragma once

#include <stdexcept>

namespace backplate {

/// The user's input cannot be used: names the file, row or key and what was expected. Exit 2.
struct BadInput : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// The outside world failed: locked, full, unreadable, a newer or foreign library. Exit 3.
struct OutsideFault : std::runtime_error {
    using std::runtime_error::runtime_error;
};

} // namespace backplate
