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

    WorkCounts& operator+=(const WorkCounts& other) {
        mix_labels += other.mix_labels;
        candidates += other.candidates;
        heat_evaluations += other.heat_evaluations;
        return *this;
    }
};

/// How much of an answer a run is for; all of it but where another run is only compared.
struct Wanted {
    bool cheapest = true; ///< else the first panel that can be built is enough
    bool reasons = true;  ///< what binds where nothing can be built
    bool range = true;    ///< the simulated range of the price; else both its ends are 0
};

/// Handed to every long function: may it go on, how far, and what did it do.
struct Work {
    std::stop_token stop;
    std::int64_t budget = 20'000'000; ///< counted steps (labels and candidates) of one run
    WorkCounts counts;
    std::function<void(int percent)> progress;
    Wanted wanted = {};
    WorkCounts trials = {}; ///< what runs beside this one did

    /// A run beside this one, with the same stop and budget.
    Work beside(const Wanted& other) const { return {stop, budget, {}, {}, other, {}}; }
    void add_trial(const Work& other) {
        trials += other.counts;
        trials += other.trials;
    }
    bool exhausted() const { return counts.mix_labels + counts.candidates > budget; }
    void check_stop() const {
        if (stop.stop_requested()) throw Stopped{};
    }
};

} // namespace backplate
