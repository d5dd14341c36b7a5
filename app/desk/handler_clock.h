#pragma once

#include <string>

namespace backplate {

/// The longest that a handler of the window had the processor for itself so far, handlers inside
/// it left out, so that a dialog it waits for does not count.
struct SlowestHandler {
    double milliseconds = 0;
    std::wstring event; ///< the kind of event it served
};
const SlowestHandler& slowest_handler();

/// Measures one handler from its making to its end; only on the window's thread.
class HandlerClock {
public:
    explicit HandlerClock(const wchar_t* event);
    ~HandlerClock();
    HandlerClock(const HandlerClock&) = delete;
    HandlerClock& operator=(const HandlerClock&) = delete;

private:
    const wchar_t* event_;
    double began_;
    double inside_before_; ///< what handlers inside the one around this had taken
};

} // namespace backplate
