#pragma once

namespace backplate {

/// How many of `full` random draws a slow test takes: all of them in the plain build, which judges
/// the counts; a tenth, rounded up, where the address checks multiply the time of each and are what
/// is judged. full: at least 1; the answer too.
constexpr int sampled(int full) {
#ifdef __SANITIZE_ADDRESS__
    return (full + 9) / 10;
#else
    return full;
#endif
}

} // namespace backplate
