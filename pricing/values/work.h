#pragma once

#include <cstdint>
#include <exception>
#include <functional>
#include <stop_token>

namespace backplate {

/// Thrown out of a long function when its stop was asked; nothing is left behind.
struct Stopped : std::exception {
    const char* what() const noexcept override { return "stopped"; }
};

/// What a run did, counted, never timed.
struct WorkCounts {
    std::int64_t mix_labels = 0;
    std::int64_t candidates = 0;
    std::int64_t heat_evaluations = 0;
};

/// Handed to every long function: may it go on, how far, and what did it do.
struct Work {
    std::stop_token stop;
    std::int64_t budget = 20'000'000; ///< counted steps (labels and candidates) of one run
    WorkCounts counts;
    std::function<void(int percent)> progress;
    bool any_panel = false; ///< the first panel that can be built is enough, cheapest or not

    bool exhausted() const { return counts.mix_labels + counts.candidates > budget; }
    void check_stop() const {
        if (stop.stop_requested()) throw Stopped{};
    }
};

} // namespace backplate
